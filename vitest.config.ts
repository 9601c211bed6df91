import { defineConfig } from "vitest/config";

const slow = 60_000;

export default defineConfig({
  test: {
    // Left to itself, vitest keeps one core free: of two cores it would use one.
    maxWorkers: "100%",
    projects: [
      {
        test: {
          name: "unit",
          environment: "node",
          include: ["packages/*/src/**/*.test.ts", "test/**/*.test.ts"],
          exclude: ["test/browser/**", "**/node_modules/**"],
          testTimeout: slow,
        },
      },
      {
        test: {
          name: "browser",
          environment: "node",
          include: ["test/browser/**/*.test.ts"],
          testTimeout: slow,
          hookTimeout: slow,
        },
      },
    ],
  },
});
