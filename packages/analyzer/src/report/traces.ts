import type { Timeline, TimelineEvent } from "./play.ts";

// What a chart, a table and a text need of a timeline.

/** Columns over the same moments; two moments at one time are before and after an event. */
export interface Traces {
  readonly ms: readonly number[];
  /** Amps that pull, by relay and winding: the current of the winding less the losses of its core. */
  readonly coils: readonly { readonly id: string; readonly winding: number; readonly amps: readonly number[] }[];
  /** 1 while it conducts. */
  readonly contacts: readonly {
    readonly part: string;
    readonly from: string;
    readonly to: string;
    readonly closed: readonly number[];
  }[];
  readonly relays: readonly { readonly id: string; readonly in: readonly number[] }[];
  /** Volts of each terminal over the reference; null where nothing holds it. */
  readonly volts: Readonly<Record<string, readonly (number | null)[]>>;
}

/** Until when there is something to see, ms: the last event and a little after it. */
export function chartEnd({ events, traces: { ms } }: Timeline): number {
  const last = events.reduce((most, e) => Math.max(most, e.ms), 0);
  return Math.min(ms[ms.length - 1] ?? 0, 1.1 * last + 10);
}

/** The value between two samples; of two at one time, the later. */
export function valueAt(ms: readonly number[], column: readonly number[], time: number): number {
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

/** What a person needs to hear of. */
export const toldEvents = (timeline: Timeline): readonly TimelineEvent[] =>
  timeline.events.filter((e) => e.says !== "" && !isRepeated(timeline, e));

/** An input without a passage is where it was sent at once: said once. */
const isRepeated = ({ events }: Timeline, event: TimelineEvent): boolean =>
  event.kind === "stand" &&
  events.some((e) => e.kind === "move" && e.ms === event.ms && e.id === event.id && e.to === event.to);

/** How it ends, in a sentence. */
export function endWords({ end, after }: Timeline): string {
  if (end === "never at rest") return "It never comes to rest: something goes on and off again and again.";
  if (end === "buzzes") return "Things that take no time drive each other on and off: it never comes to rest.";
  const relays = after.in.length === 0 ? "no relay is in" : `in: ${after.in.join(", ")}`;
  return `Then nothing moves any more; ${relays}; on: ${after.on.length === 0 ? "nothing" : after.on.join(", ")}.`;
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
