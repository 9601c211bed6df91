import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { Explored } from "@loomproof/analyzer/testing";

// Everything that growing trucks can do: the exploration alone, in every run, without rules. A process for each size.

const SIZES = [25, 50, 100, 250, 500, 1000, 2000];
const SEED = 1;
/** Seconds of the processor after which a size is given up, and with it all larger ones. */
const MOST_SECONDS = 60;
/** A process that hardly gets the processor is ended too. */
const MOST_WALL_MS = 6 * MOST_SECONDS * 1000;
/** Growth is told over these sizes. */
const GROWTH = [250, 2000] as const;

interface Measured extends Explored {
  readonly ms: number;
  readonly referenceMs: number;
  readonly peakMb: number;
}

export function scale(say: (line: string) => void): void {
  const script = fileURLToPath(new URL("explore-one.mjs", import.meta.url));
  const done = new Map<number, Measured>();
  say(`invented trucks (seed ${SEED}), exploration alone, all runs, processor time:`);
  for (const parts of SIZES) {
    const args = [script, `${parts}`, `${SEED}`, `${MOST_SECONDS}`];
    const ran = spawnSync(process.execPath, args, { encoding: "utf8", timeout: MOST_WALL_MS, killSignal: "SIGKILL" });
    if (ran.signal !== null) {
      say(`  ${parts} parts: not done after ${MOST_SECONDS} s of the processor; larger ones are left out`);
      break;
    }
    if (ran.status !== 0) throw new Error(`${parts} parts: ${ran.stderr}`);
    const m = JSON.parse(ran.stdout) as Measured;
    done.set(parts, m);
    const whole = m.complete ? (m.asUsual === 0 ? "complete" : `${m.asUsual} decided as usual`) : "cut short";
    say(
      `  ${`${parts}`.padStart(4)} parts ${`${m.states}`.padStart(7)} states ${`${m.solves}`.padStart(7)} solves ` +
        `${(m.ms / 1000).toFixed(2).padStart(7)} s ${(m.ms / m.referenceMs).toFixed(1).padStart(7)} x ` +
        `${m.peakMb.toFixed(0).padStart(5)} MB, ${m.runs} runs, ${whole}`,
    );
  }
  const [first, last] = [...done.keys()]
    .filter((n) => n >= GROWTH[0] && n <= GROWTH[1])
    .flatMap((n, i, all) => (i === 0 || i === all.length - 1 ? [n] : []));
  const [a, b] = [done.get(first ?? 0), done.get(last ?? 0)];
  if (first === undefined || last === undefined || a === undefined || b === undefined) {
    say(`  growth from ${GROWTH[0]} parts on: not measured, fewer than two sizes were done`);
    return;
  }
  const exponent = Math.log(b.ms / a.ms) / Math.log(last / first);
  say(`  growth from ${first} to ${last} parts: n^${exponent.toFixed(2)}`);
}
