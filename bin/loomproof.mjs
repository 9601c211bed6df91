#!/usr/bin/env node
import { existsSync } from "node:fs";

const built = new URL("../packages/cli/dist/loomproof.mjs", import.meta.url);
if (!existsSync(built)) {
  console.error("loomproof is not built yet. Run: npm run build");
  process.exit(2);
}
await import(built.href);
