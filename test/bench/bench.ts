import { readFileSync } from "node:fs";
import { analyse, walk } from "@loomproof/analyzer";
import { layout } from "@loomproof/drawing";
import { parse, resolve } from "@loomproof/netlist";
import { ladder } from "./ladder.ts";
import { median, referenceMs } from "./reference.ts";

// npm run bench: figures in ms and as multiples of the reference loop of the same run.

const reference = referenceMs();
const row = (what: string, ms: number, more = "") =>
  process.stdout.write(
    `${what.padEnd(54)} ${ms.toFixed(1).padStart(9)} ms ${(ms / reference).toFixed(2).padStart(8)} x ${more}\n`,
  );

row("reference: LU of 200 x 200 by mathjs", reference);

for (const name of ["fuel-feed", "fuel-feed-cured"]) {
  const text = readFileSync(new URL(`../../examples/${name}.loom.json`, import.meta.url), "utf8");
  const read = parse(text);
  if (!read.ok) throw new Error(`${name} is no loom`);
  const { loom } = read;
  row(
    `${name}: read`,
    median(9, () => parse(text)),
  );
  const { counts } = analyse(loom).coverage;
  row(
    `${name}: analysis, warm`,
    median(5, () => analyse(loom)),
    `${counts.states} states, ${counts.solves} solves`,
  );
  row(
    `${name}: layout`,
    median(3, () => layout(resolve(loom))),
  );
}

for (const circuits of [3, 10, 30]) {
  const loom = ladder(circuits);
  const switches = Array.from({ length: circuits }, (_, i) => `S${i + 1}`);
  const steps = Array.from({ length: 200 }, (_, k) => ({
    [switches[k % circuits] ?? ""]: (Math.floor(k / circuits) + k) % 2 === 0 ? "closed" : "open",
  }));
  let readings = 0;
  const ms = median(5, () => {
    readings = walk(loom, steps).reduce((n, s) => n + s.readings.length, 0);
  });
  row(`walk of 200 moves, ${circuits * 14 + 6} nodes about`, ms, `${(readings / ms).toFixed(1)} settled moves/ms`);
}
