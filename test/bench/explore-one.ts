import { Worker } from "node:worker_threads";
import { exploreLoom } from "@loomproof/analyzer/testing";
import { cpuMs, median } from "./measure.ts";
import { referenceLoop } from "./reference.ts";
import { truck } from "./truck.ts";

// One size of truck in a process of its own, once `npm run bench` has built it:
// node build/bench/explore-one.mjs PARTS SEED MOST_SECONDS

const [parts = 25, seed = 1, mostSeconds = 60] = process.argv.slice(2).map(Number);

// The search never rests, so that somebody else must look at the clock of the processor.
const watch = `
  const { workerData } = require("node:worker_threads");
  const before = process.cpuUsage();
  setInterval(() => {
    const { user, system } = process.cpuUsage(before);
    if ((user + system) / 1e6 > workerData) process.kill(process.pid, "SIGKILL");
  }, 200);
`;

const reference = referenceLoop();
const referenceMs = median(Array.from({ length: 5 }, () => cpuMs(reference)));
const loom = truck(parts, seed);
new Worker(watch, { eval: true, workerData: mostSeconds }).unref();
let explored: ReturnType<typeof exploreLoom> | undefined;
const ms = cpuMs(() => {
  explored = exploreLoom(loom);
});
const peakMb = process.resourceUsage().maxRSS / 1024;
process.stdout.write(JSON.stringify({ ...explored, ms, referenceMs, peakMb }));
process.exit();
