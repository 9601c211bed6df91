// Which package may import which, and the inner order of the analyzer. Also proves that it looked at something: without a
// TypeScript it understands, the cruiser finds no modules and calls that a success.
import { spawnSync } from "node:child_process";
import { root, tool } from "./step.mjs";

const LEAST_MODULES = 100;

function checkBoundaries() {
  const ran = spawnSync(
    tool("depcruise"),
    ["--config", ".dependency-cruiser.cjs", "--output-type", "json", "packages", "test"],
    {
      cwd: root,
      encoding: "utf8",
      maxBuffer: 256_000_000,
      shell: process.platform === "win32",
    },
  );
  /** @type {{ modules: { source: string }[], summary: { violations: { rule: { name: string }, from: string, to: string }[] } }} */
  let result;
  try {
    result = JSON.parse(ran.stdout);
  } catch {
    console.error(`boundaries: the cruiser failed\n${ran.stderr}`);
    process.exit(1);
  }
  const own = result.modules.filter((m) => /^packages\/.*\.tsx?$/.test(m.source)).length;
  for (const v of result.summary.violations) console.error(`  ${v.rule.name}: ${v.from} must not import ${v.to}`);
  if (own < LEAST_MODULES)
    console.error(`  only ${own} modules were looked at; at least ${LEAST_MODULES} are expected`);
  if (result.summary.violations.length > 0 || own < LEAST_MODULES) process.exit(1);
  console.log(`  ${own} modules looked at`);
}

checkBoundaries();
