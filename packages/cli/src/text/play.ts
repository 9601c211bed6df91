import type { Timeline } from "@loomproof/analyzer";
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
  const told = timeline.events.filter((e) => e.says !== "" && !isRepeated(timeline, e));
  const width = Math.max(0, ...told.map((e) => msText(e.ms).length));
  const lines = told.map((e) => {
    const line = `${msText(e.ms).padStart(width)} ms  ${e.says}`;
    return e.kind === "move" ? paint.bold(line) : e.kind === "latch" || e.kind === "stand" ? line : paint.dim(line);
  });
  const left = timeline.end === "at rest" ? 0 : Math.max(0, lines.length - MOST_RESTLESS);
  if (left > 0) lines.splice(MOST_RESTLESS, left, `${"".padStart(width)}     and so on, ${left} lines more`);
  const head = paint.bold(file) + (timeline.title === "" ? "" : `  ${timeline.title}`);
  return [head, "", ...lines, "", endText(timeline), "", ...chartLines(timeline)].join("\n").trimEnd();
}

/** An input without a passage is where it was sent at once: said once. */
const isRepeated = ({ events }: Timeline, event: Timeline["events"][number]): boolean =>
  event.kind === "stand" &&
  events.some((e) => e.kind === "move" && e.ms === event.ms && e.id === event.id && e.to === event.to);

function endText({ end, after }: Timeline): string {
  if (end === "never at rest") return "It never comes to rest: something goes on and off again and again.";
  if (end === "buzzes") return "Things that take no time drive each other on and off: it never comes to rest.";
  const relays = after.in.length === 0 ? "no relay is in" : `in: ${after.in.join(", ")}`;
  return `Then nothing moves any more; ${relays}; on: ${after.on.length === 0 ? "nothing" : after.on.join(", ")}.`;
}

/** Coil current and contact of each relay that moved or carried current, over the whole time. */
function chartLines(timeline: Timeline): readonly string[] {
  const { ms, coils, relays } = timeline.traces;
  const last = timeline.events.reduce((most, e) => Math.max(most, e.ms), 0);
  const end = Math.min(ms[ms.length - 1] ?? 0, 1.1 * last + 10);
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

/** The value between two samples; of two at one time, the later. */
function valueAt(ms: readonly number[], column: readonly number[], time: number): number {
  let low = 0;
  let high = ms.length - 1;
  while (low < high) {
    const mid = (low + high + 1) >> 1;
    if ((ms[mid] ?? 0) <= time) low = mid;
    else high = mid - 1;
  }
  const [t0, t1, v0, v1] = [ms[low] ?? 0, ms[low + 1] ?? 0, column[low] ?? 0, column[low + 1] ?? column[low] ?? 0];
  return t1 > t0 ? v0 + ((time - t0) / (t1 - t0)) * (v1 - v0) : v0;
}

/** One row a moment: currents in A, contacts and relays as 1 and 0, volts; nothing where nothing holds a terminal. */
export function timelineCsv({ traces }: Timeline): string {
  const { ms, coils, contacts, relays, volts } = traces;
  const columns: readonly (readonly [string, readonly (number | null)[]])[] = [
    ["ms", ms],
    ...coils.map((c) => [`${c.id} winding ${c.winding} A`, c.amps] as const),
    ...relays.map((r) => [`${r.id} in`, r.in] as const),
    ...contacts.map((c) => [`${c.from} to ${c.to} closed`, c.closed] as const),
    ...Object.entries(volts).map(([terminal, list]) => [`${terminal} V`, list] as const),
  ];
  const rows = ms.map((_, k) => columns.map(([, list]) => list[k] ?? "").join(","));
  return [columns.map(([name]) => field(name)).join(","), ...rows].join("\n");
}

/** A name as a field: quoted where it holds what separates fields, and never read as a formula. */
const field = (name: string): string => (/^[=+@-]|[",\n]/.test(name) ? `"${name.replaceAll('"', '""')}"` : name);
