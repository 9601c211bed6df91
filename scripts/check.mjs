// Types, style, boundaries, unused code.
import { tool } from "./step.mjs";

/** @type {readonly import("./step.mjs").Step[]} */
export const checks = [
  { title: "types", command: tool("tsc"), args: ["-b"] },
  { title: "boundaries", command: process.execPath, args: ["scripts/boundaries.mjs"] },
  { title: "style", command: tool("biome"), args: ["ci", "--error-on-warnings", "--colors=off", "."] },
  { title: "unused code and packages", command: tool("knip"), args: ["--no-progress"] },
];
