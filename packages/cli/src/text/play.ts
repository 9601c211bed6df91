import { chartEnd, endWords, type Timeline, toldEvents, valueAt } from "@loomproof/analyzer";
import type { Painter } from "./paint.ts";

const COLUMNS = 64;
/** Lines told of what never comes to rest. */
const MOST_RESTLESS = 40;
const LEVELS = " ▁▂▃▄▅▆▇█";

/** One decimal, also late in a script: what matters is the difference between two lines. */
const msText = (ms: number): string => (ms < 10_000 ? ms.toFixed(1) : ms.toFixed(0));
const ampsText = (amps: number): string =>
  amps < 1 ? `${Number((1000 * amps).toPrecision(3))} mA` : `${Number(amps.toPrecision(3))} A`;

/** What happened, line by line, and a chart of what moved. */
export function timelineText(file: string, timeline: Timeline, paint: Painter): string {
  const told = toldEvents(timeline);
  const width = Math.max(0, ...told.map((e) => msText(e.ms).length));
  const lines = told.map((e) => {
    const line = `${msText(e.ms).padStart(width)} ms  ${e.says}`;
    return e.kind === "move" ? paint.bold(line) : e.kind === "latch" || e.kind === "stand" ? line : paint.dim(line);
  });
  const left = timeline.end === "at rest" ? 0 : Math.max(0, lines.length - MOST_RESTLESS);
  if (left > 0) lines.splice(MOST_RESTLESS, left, `${"".padStart(width)}     and so on, ${left} lines more`);
  const head = paint.bold(file) + (timeline.title === "" ? "" : `  ${timeline.title}`);
  return [head, "", ...lines, "", endWords(timeline), "", ...chartLines(timeline)].join("\n").trimEnd();
}

/** Coil current and contact of each relay that moved or carried current, over the whole time. */
function chartLines(timeline: Timeline): readonly string[] {
  const { ms, coils, relays } = timeline.traces;
  const end = chartEnd(timeline);
  const within = (column: readonly number[]) =>
    Array.from({ length: COLUMNS }, (_, c) => rangeOf(ms, column, (c * end) / COLUMNS, ((c + 1) * end) / COLUMNS));
  const shown = relays
    .map((relay) => ({
      relay,
      amps: coils.filter((c) => c.id === relay.id).map((c) => c.amps),
    }))
    .filter(({ amps, relay }) => relay.in.includes(1) || amps.some((a) => a.some((i) => Math.abs(i) > 1e-3)));
  if (shown.length === 0 || end <= 0) return [];
  const width = Math.max(...shown.map(({ relay }) => relay.id.length));
  const rows = shown.flatMap(({ relay, amps }) => [
    ...amps.map((a, k) => {
      const most = a.reduce((m, i) => Math.max(m, Math.abs(i)), 0);
      const name = k === 0 ? relay.id : "";
      return `${name.padEnd(width)}  ${bars(within(a), most)}  up to ${ampsText(most)}`;
    }),
    `${"".padEnd(width)}  ${within(relay.in)
      .map(([least, most]) => (least > 0 ? "█" : most > 0 ? "▒" : "·"))
      .join("")}  in`,
  ]);
  const axis = `${"".padEnd(width)}  0${`${msText(end)} ms`.padStart(COLUMNS - 1)}`;
  return [...rows, axis];
}

const bars = (ranges: readonly (readonly [number, number])[], most: number): string =>
  ranges
    .map(([low, high]) => {
      const size = Math.max(Math.abs(low), Math.abs(high));
      return LEVELS[most > 0 ? Math.round((size / most) * (LEVELS.length - 1)) : 0] ?? " ";
    })
    .join("");

/** The least and the largest value of a stretch of time, so that nothing short is lost. */
function rangeOf(ms: readonly number[], column: readonly number[], from: number, to: number): [number, number] {
  const inside = column.filter((_, k) => (ms[k] ?? 0) > from && (ms[k] ?? 0) < to);
  const all = [valueAt(ms, column, from), ...inside, valueAt(ms, column, to)];
  return all.reduce<[number, number]>(
    ([least, most], v) => [Math.min(least, v), Math.max(most, v)],
    [Infinity, -Infinity],
  );
}
