// Preloaded into the tool by tests: says what the process has used when it ends. Time is that of the processor, since who
// else uses the machine is no matter of the tool.
const { writeSync } = require("node:fs");
process.on("exit", () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  writeSync(2, `\nused ${maxRSS} kB, ${userCPUTime + systemCPUTime} us\n`);
});
