// Builds the terminal tool and the page.
import { tool } from "./step.mjs";

/** @type {(title: string, house: string) => import("./step.mjs").Step} */
const built = (title, house) => ({
  title: `building ${title}`,
  command: tool("vite"),
  args: ["build", "--logLevel", "warn", "--config", `packages/${house}/vite.config.ts`],
});

export const builds = [built("the page", "editor"), built("the terminal tool", "cli")];
