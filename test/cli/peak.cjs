// Preloaded into the tool by tests: says the largest memory of the process when it ends.
const { writeSync } = require("node:fs");
process.on("exit", () => writeSync(2, `\npeak ${process.resourceUsage().maxRSS} kB\n`));
