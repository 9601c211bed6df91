// One door for every command of package.json. What is missing is installed first.
import { existsSync } from "node:fs";
import { join } from "node:path";
import { builds } from "./build.mjs";
import { checks } from "./check.mjs";
import { setup } from "./setup.mjs";
import { root, step, together, tool } from "./step.mjs";

/** The main example, or the small one as long as there is no other. */
const DEMO = existsSync(join(root, "examples", "marigold-first.loom.json")) ? "marigold-first" : "fuel-feed";
const what = process.argv[2] ?? "";

/** @type {Readonly<Record<string, () => void | Promise<void>>>} */
const commands = {
  setup: () => {},
  build: () => together(builds),
  check: () => together(checks),
  start: async () => {
    await together(builds);
    console.log();
    step(`findings of the demo loom`, process.execPath, [
      "bin/loomproof.mjs",
      "prove",
      `examples/${DEMO}.loom.json`,
      "--fail-at",
      "never",
    ]);
    const { serve, show } = await import("./serve.mjs");
    const page = `${await serve()}#loom=${DEMO}`;
    console.log(`\nThe page: ${page}\nCtrl-C ends it.`);
    await show(page);
  },
  test: async () => {
    const { findBrowser } = await import("./find-browser.mjs");
    let browser = "";
    try {
      browser = findBrowser();
    } catch (error) {
      console.error(error instanceof Error ? error.message : error);
      process.exit(1);
    }
    await together([...checks, ...builds]);
    (await import("./tests.mjs")).runTests(browser);
  },
  cases: () => {
    process.exitCode = step(
      "cases",
      process.execPath,
      ["--import", "tsx", "test/cases/score.ts", ...process.argv.slice(3)],
      { mayFail: true },
    );
  },
  soak: () => {
    process.exitCode = step(
      "soak",
      process.execPath,
      ["--import", "tsx", "test/props/soak.ts", ...process.argv.slice(3)],
      { mayFail: true },
    );
  },
  bench: () => {
    step("building the bench", tool("vite"), ["build", "--logLevel", "warn", "--config", "test/bench/vite.config.ts"]);
    step("bench", process.execPath, ["build/bench/bench.mjs"]);
  },
};

const command = Object.hasOwn(commands, what) ? commands[what] : undefined;
if (command === undefined) {
  console.error(`Commands: ${Object.keys(commands).join(", ")}.`);
  process.exit(2);
}
setup();
await command();
