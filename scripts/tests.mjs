// Runs every test and closes with "N passed, N failed".
import { mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root, step, tool } from "./step.mjs";

/** @param {string} browser path of the browser for the page's tests */
export function runTests(browser) {
  const folder = join(root, "build");
  mkdirSync(folder, { recursive: true });
  const results = join(folder, "tests.json");
  const code = step(
    "tests",
    tool("vitest"),
    ["run", "--reporter=default", "--reporter=json", `--outputFile.json=${results}`],
    {
      env: { LOOMPROOF_BROWSER: browser },
      mayFail: true,
    },
  );
  /** @type {{ numPassedTests: number, numFailedTests: number, numFailedTestSuites: number, numTotalTests: number }} */
  const counted = JSON.parse(readFileSync(results, "utf8"));
  // A file that cannot even be loaded counts as one failure.
  const failed = Math.max(counted.numFailedTests, counted.numFailedTestSuites > 0 ? 1 : 0, code === 0 ? 0 : 1);
  console.log(`\n${counted.numPassedTests} passed, ${failed} failed`);
  process.exitCode = failed > 0 || counted.numPassedTests === 0 ? 1 : 0;
}
