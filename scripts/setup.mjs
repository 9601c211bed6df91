// Installs the pinned packages when the lock has changed since the last time.
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { root, step } from "./step.mjs";

const PNPM = "12.4.2";
const stamp = join(root, "node_modules", ".setup-stamp");

/** Everything that decides what is installed. */
function wanted() {
  const manifests = readdirSync(join(root, "packages")).map((p) => `packages/${p}/package.json`);
  const hash = createHash("sha256").update(PNPM);
  for (const file of ["package.json", "pnpm-lock.yaml", "pnpm-workspace.yaml", ...manifests])
    hash.update(readFileSync(join(root, file)));
  return hash.digest("hex");
}

export function setup() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Node 20.19 or newer is needed; this is ${process.version}.`);
    process.exit(1);
  }
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted()) return;
  step(
    "installing packages",
    "npx",
    ["--yes", `pnpm@${PNPM}`, "install", "--frozen-lockfile", "--reporter=append-only"],
    {
      env: { npm_config_update_notifier: "false" },
    },
  );
  writeFileSync(stamp, wanted());
}
