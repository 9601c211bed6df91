// Runs one named step and says how long it took. A step that fails ends the whole command.
import { spawnSync } from "node:child_process";
import { join } from "node:path";

export const root = join(import.meta.dirname, "..");
const onWindows = process.platform === "win32";

/** A program of the installed packages. @param {string} name */
export const tool = (name) => join(root, "node_modules", ".bin", onWindows ? `${name}.CMD` : name);

/**
 * @param {string} title
 * @param {string} command
 * @param {readonly string[]} args
 * @param {{ env?: NodeJS.ProcessEnv, mayFail?: boolean }} [options]
 * @returns {number} exit code
 */
export function step(title, command, args, { env = {}, mayFail = false } = {}) {
  const started = performance.now();
  console.log(`> ${title}`);
  const ran = spawnSync(command, [...args], {
    cwd: root,
    stdio: "inherit",
    env: { ...process.env, ...env },
    shell: onWindows,
  });
  const code = ran.status ?? 1;
  if (code !== 0 && !mayFail) {
    console.error(`${title}: failed${ran.error ? ` (${ran.error.message})` : ""}`);
    process.exit(code);
  }
  console.log(`  ${((performance.now() - started) / 1000).toFixed(1)} s`);
  return code;
}
