// Types, style, boundaries, unused code.
import { checkBoundaries } from "./boundaries.mjs";
import { step, tool } from "./step.mjs";

export function check() {
  step("types", tool("tsc"), ["-b"]);
  step("style", tool("biome"), ["ci", "--error-on-warnings", "--colors=off", "."]);
  checkBoundaries();
  step("unused code and packages", tool("knip"), ["--no-progress"]);
}
