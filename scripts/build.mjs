// Builds the terminal tool and the page.
import { step, tool } from "./step.mjs";

export function build() {
  step("building the terminal tool", tool("vite"), [
    "build",
    "--logLevel",
    "warn",
    "--config",
    "packages/cli/vite.config.ts",
  ]);
  step("building the page", tool("vite"), [
    "build",
    "--logLevel",
    "warn",
    "--config",
    "packages/editor/vite.config.ts",
  ]);
}
