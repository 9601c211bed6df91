// Runs named steps and says how long each took. A step that fails ends the whole command.
import { spawn, spawnSync } from "node:child_process";
import { availableParallelism } from "node:os";
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

/** @typedef {{ title: string, command: string, args: readonly string[] }} Step */

/**
 * Runs steps side by side, as many at once as there are processors. What one says is printed when it ends, so that it stands
 * together; all of them are run, so that one call tells everything that is wrong.
 * @param {readonly Step[]} steps the longest first
 */
export async function together(steps) {
  const waiting = [...steps];
  let failed = 0;
  const worker = async () => {
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift())
      if ((await quietly(next)) !== 0) failed = 1;
  };
  await Promise.all(Array.from({ length: availableParallelism() }, worker));
  if (failed !== 0) process.exit(failed);
}

/** @param {Step} step @returns {Promise<number>} exit code */
function quietly({ title, command, args }) {
  const started = performance.now();
  const running = spawn(command, [...args], { cwd: root, stdio: ["ignore", "pipe", "pipe"], shell: onWindows });
  let said = "";
  for (const out of [running.stdout, running.stderr])
    out.setEncoding("utf8").on("data", (/** @type {string} */ text) => {
      said += text;
    });
  return new Promise((resolve) => {
    const end = (/** @type {number} */ code, /** @type {string} */ why) => {
      console.log(`> ${title}`);
      if (said !== "") console.log(said.trimEnd());
      if (code !== 0) console.error(`${title}: failed${why}`);
      console.log(`  ${((performance.now() - started) / 1000).toFixed(1)} s`);
      resolve(code);
    };
    running.once("error", (error) => end(1, ` (${error.message})`));
    running.once("close", (code) => end(code ?? 1, ""));
  });
}
