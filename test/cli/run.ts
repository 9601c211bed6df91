import { spawn, spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const bin = `${root}bin/loomproof.mjs`;
const peak = `${root}test/cli/peak.cjs`;

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
  /** Time of the processor. */
  readonly seconds: number;
  /** Largest memory of the process, MB. */
  readonly megabytes: number;
}

/** The terminal tool as a process, run from the repository's root. */
export function loomproof(args: readonly string[], input: string | Buffer = ""): Ran {
  const ran = spawnSync(process.execPath, ["--require", peak, bin, ...args], {
    cwd: root,
    input,
    encoding: "utf8",
    maxBuffer: 64_000_000,
    env: { ...process.env, NODE_OPTIONS: "", NO_COLOR: "1" },
  });
  const told = /\nused (\d+) kB, (\d+) us\n/.exec(ran.stderr);
  return {
    code: ran.status,
    out: ran.stdout,
    err: ran.stderr.replace(/\nused \d+ kB, \d+ us\n/, ""),
    seconds: Number(told?.[2] ?? Number.NaN) / 1e6,
    megabytes: Number(told?.[1] ?? Number.NaN) / 1024,
  };
}

/** What the tool complains of when nobody reads what it prints. */
export function complaintsUnread(args: readonly string[]): Promise<string> {
  const child = spawn(process.execPath, [bin, ...args], { cwd: root, stdio: ["ignore", "pipe", "pipe"] });
  child.stdout.destroy();
  let complaints = "";
  child.stderr.on("data", (chunk: Buffer) => {
    complaints += chunk.toString();
  });
  return new Promise((resolve) => child.on("close", () => resolve(complaints)));
}
