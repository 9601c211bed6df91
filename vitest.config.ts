import { relative } from "node:path";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

const slow = 60_000;

/** These take minutes. Left to the end, one core would wait for the other. */
const LONGEST = ["test/examples/", "test/browser/random-edits", "test/browser/drafts", "test/browser/"];

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification) => {
      const path = relative(import.meta.dirname, moduleId).replaceAll("\\", "/");
      const at = LONGEST.findIndex((start) => path.startsWith(start));
      return at < 0 ? LONGEST.length : at;
    };
    return (await super.sort(files)).toSorted((x, y) => rank(x) - rank(y));
  }
}

/** Files share what they have loaded: no test changes a module or what is global. A project does not inherit it. */
const shared = { environment: "node", isolate: false } as const;

/**
 * Code of ours without a page is loaded by node itself, as the terminal does. Loaded by vite every call from one file to
 * another goes by a getter, and the searches take half as long again.
 */
const native = {
  execArgv: ["--import", "tsx"],
  server: { deps: { external: [/\/packages\/(?!editor\/)\w+\/src\/(?!.*\.test\.ts$)/] } },
};

export default defineConfig({
  test: {
    // Left to itself, vitest keeps one core free: of two cores it would use one.
    maxWorkers: "100%",
    sequence: { sequencer: LongestFirst },
    projects: [
      {
        test: {
          name: "unit",
          ...shared,
          ...native,
          include: ["packages/*/src/**/*.test.ts", "test/**/*.test.ts"],
          exclude: ["test/browser/**", "**/node_modules/**"],
          testTimeout: slow,
        },
      },
      {
        test: {
          name: "browser",
          ...shared,
          include: ["test/browser/**/*.test.ts"],
          testTimeout: slow,
          hookTimeout: slow,
        },
      },
    ],
  },
});
