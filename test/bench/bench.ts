import { readFileSync } from "node:fs";
import { analyse, analyseInSlices, play, type SoFar, walk } from "@loomproof/analyzer";
import { layout } from "@loomproof/drawing";
import { type Loom, parse, resolve } from "@loomproof/netlist";
import { withUnknownClamps } from "../examples/unknown-clamps.ts";
import { ladder } from "./ladder.ts";
import { medianMs } from "./measure.ts";
import { ownSpeed, pointSpeed } from "./points.ts";
import { referenceMs } from "./reference.ts";
import { scale } from "./scale.ts";
import { truck } from "./truck.ts";

// npm run bench: figures in ms and as multiples of the reference loop of the same run.

const reference = referenceMs();
const say = (line: string) => void process.stdout.write(`${line}\n`);
const row = (what: string, ms: number, more = "") =>
  say(`${what.padEnd(54)} ${ms.toFixed(1).padStart(9)} ms ${(ms / reference).toFixed(2).padStart(8)} x ${more}`);

row("reference: LU of 200 x 200 by mathjs", reference);

scale(say);

say("operating points a second of the processor: one contact at random toggled, diodes settled, law checked");
for (const loom of [ladder(1), truck(25, 1), truck(143, 1)]) {
  const s = pointSpeed(loom);
  const thousands = (x: number) => (x / 1000).toFixed(x < 10_000 ? 2 : 0);
  say(
    `  ${`${s.nodes}`.padStart(4)} nodes ${thousands(s.perSecond)}k from the point before (${s.steps.toFixed(2)} steps), ` +
      `${thousands(s.perSecondAfresh)}k afresh; dense LDL' ${thousands(s.perSecondDense)}k ` +
      `(${(s.perSecondDense / s.perSecond).toFixed(2)} times ours), mathjs ${thousands(s.perSecondLibrary)}k; ` +
      `apart by ${s.apart.toExponential(1)} V`,
  );
}

say("the same by the solver alone, on larger looms");
const alone = [143, 500, 1000, 2000].map((parts) => ownSpeed(truck(parts, 1)));
for (const s of alone)
  say(
    `  ${`${s.nodes}`.padStart(4)} nodes ${(1e6 / s.perSecond).toFixed(0).padStart(5)} us from the point before, ` +
      `${(1e6 / s.perSecondAfresh).toFixed(0).padStart(5)} us afresh`,
  );
const [smallest, largest] = [alone[0], alone.at(-1)];
if (smallest !== undefined && largest !== undefined) {
  const growth = (one: number, other: number) =>
    (Math.log(one / other) / Math.log(largest.nodes / smallest.nodes)).toFixed(2);
  say(
    `  growth: n^${growth(smallest.perSecond, largest.perSecond)} from the point before, ` +
      `n^${growth(smallest.perSecondAfresh, largest.perSecondAfresh)} afresh`,
  );
}

/** The same loom with one wire twice as long, as after an edit. */
function edited(loom: Loom): Loom {
  const middle = loom.wires.length >> 1;
  return { ...loom, wires: loom.wires.map((w, i) => (i === middle ? { ...w, length: "2.5 m" } : w)) };
}

/** Works until so much is told. */
function untilTold(loom: Loom, isEnough: (soFar: SoFar) => boolean): void {
  for (const { found } of analyseInSlices(loom, { early: true })) if (found !== undefined && isEnough(found())) return;
}
const first = () => true;
const all = ({ ofAllRuns }: SoFar) => ofAllRuns;

for (const name of ["fuel-feed", "fuel-feed-cured", "marigold-first", "marigold-cured"]) {
  const text = readFileSync(new URL(`../../examples/${name}.loom.json`, import.meta.url), "utf8");
  const read = parse(text);
  if (!read.ok) throw new Error(`${name} is no loom`);
  const { loom } = read;
  row(
    `${name}: read`,
    medianMs(9, () => parse(text)),
  );
  const { counts } = analyse(loom).coverage;
  row(
    `${name}: analysis, warm`,
    medianMs(9, () => analyse(loom)),
    `${counts.states} states, ${counts.solves} solves`,
  );
  row(
    `${name}: first findings, of the usual run`,
    medianMs(9, () => untilTold(loom, first)),
  );
  row(
    `${name}: all findings, without what ends them`,
    medianMs(9, () => untilTold(loom, all)),
  );
  row(
    `${name}: analysis after one edited wire`,
    medianMs(3, () => analyse(edited(loom))),
  );
  row(
    `${name}: first findings after one edited wire`,
    medianMs(9, () => untilTold(edited(loom), first)),
  );
  row(
    `${name}: layout`,
    medianMs(3, () => layout(resolve(loom))),
  );
  row(
    `${name}: 500 ms of key moves`,
    medianMs(9, () => play(loom, "S1=run, 200ms S1=start, 350ms S1=run, 450ms S1=off")),
  );
}

{
  const read = parse(readFileSync(new URL("../../examples/marigold-cured.loom.json", import.meta.url), "utf8"));
  if (!read.ok) throw new Error("marigold-cured is no loom");
  const loom = withUnknownClamps(read.loom);
  let counts = { runs: 0, states: 0, solves: 0 };
  const ms = medianMs(1, () => {
    counts = analyse(loom).coverage.counts;
  });
  row("marigold-cured, every clamp unknown: analysis", ms, `${counts.runs} runs, ${counts.states} states`);
}

for (const circuits of [3, 10, 30]) {
  const loom = ladder(circuits);
  const switches = Array.from({ length: circuits }, (_, i) => `S${i + 1}`);
  const steps = Array.from({ length: 200 }, (_, k) => ({
    [switches[k % circuits] ?? ""]: (Math.floor(k / circuits) + k) % 2 === 0 ? "closed" : "open",
  }));
  let readings = 0;
  const ms = medianMs(5, () => {
    readings = walk(loom, steps).reduce((n, s) => n + s.readings.length, 0);
  });
  row(`walk of 200 moves, ${circuits * 14 + 6} nodes about`, ms, `${(readings / ms).toFixed(1)} settled moves/ms`);
}
