import { chartEnd, type Finding, type Timeline, valueAt } from "@loomproof/analyzer";
import type { ResolvedLoom } from "@loomproof/netlist";
import { amps, nameOf, volts } from "../../panels/words.ts";

/** A stretch of a bar, in ms. */
interface Span {
  readonly from: number;
  readonly to: number;
  readonly says: string;
  readonly isOn: boolean;
}

interface LaneOf<K extends string> {
  /** Of its own among the lanes. */
  readonly key: string;
  readonly kind: K;
  /** Designation of what it is about, and what of it. */
  readonly id: string;
  readonly says: string;
}
export interface BarLane extends LaneOf<"bar"> {
  readonly spans: readonly Span[];
}
export interface LineLane extends LaneOf<"line"> {
  readonly unit: "A" | "V";
  /** One value a moment of the timeline; null where nothing holds a terminal. */
  readonly values: readonly (number | null)[];
  readonly limits: readonly { readonly at: number; readonly says: string }[];
}
export type Lane = BarLane | LineLane;

/** Amps below which a coil counts as without current. */
const LEAST_AMPS = 1e-3;

/** What moved, in lanes: inputs, then of each relay its coil current and its contact, then volts of these terminals. */
export function lanesOf(
  loom: ResolvedLoom,
  timeline: Timeline,
  terminals: readonly string[],
  end = chartEnd(timeline),
): readonly Lane[] {
  const { traces, coils } = timeline;
  const moved = [...new Set(timeline.events.flatMap((e) => (e.kind === "move" ? [e.id] : [])))];
  const inputs = moved.map(
    (id): Lane => ({ key: `input ${id}`, kind: "bar", ...aboutInput(loom, id), spans: standsOf(timeline, id, end) }),
  );
  const relays = traces.relays.flatMap((relay): Lane[] => {
    const windings = traces.coils.filter((c) => c.id === relay.id);
    const carries = windings.some((w) => w.amps.some((a) => Math.abs(a) > LEAST_AMPS));
    if (!carries && !relay.in.includes(1)) return [];
    const { operateAmps, releaseAmps } = coils.find((c) => c.id === relay.id) ?? {};
    const limits = [
      ...(operateAmps === undefined ? [] : [{ at: operateAmps, says: `pulls in at ${amps(operateAmps)}` }]),
      ...(releaseAmps === undefined ? [] : [{ at: releaseAmps, says: `lets go at ${amps(releaseAmps)}` }]),
    ];
    const currents = windings.map(
      (w): Lane => ({
        key: `coil ${w.id} ${w.winding}`,
        kind: "line",
        id: w.id,
        says: windings.length > 1 ? `coil current, winding ${w.winding}` : "coil current",
        unit: "A",
        values: w.amps,
        limits,
      }),
    );
    const spans = spansOf(traces.ms, relay.in, end);
    return [...currents, { key: `contact ${relay.id}`, kind: "bar", id: relay.id, says: "contact", spans }];
  });
  const nodes = terminals.flatMap((t): Lane[] => {
    const values = traces.volts[t];
    return values === undefined
      ? []
      : [{ key: `volts ${t}`, kind: "line", id: t, says: "volts", unit: "V", values, limits: [] }];
  });
  return [...inputs, ...relays, ...nodes];
}

function aboutInput(loom: ResolvedLoom, id: string) {
  const name = nameOf(loom, id);
  return { id, says: name === id ? "" : name.slice(0, -id.length - 1) };
}

/** Where an input stands over time. What is on its way between two positions says so. */
function standsOf({ before, events }: Timeline, id: string, end: number): readonly Span[] {
  const first = before.inputs[id] ?? "";
  const spans: Span[] = [];
  let [from, stand] = [0, first];
  const close = (to: number) => {
    const says = stand.includes("~") ? `between ${stand.replace("~", " and ")}` : stand;
    if (to > from) spans.push({ from, to, says, isOn: stand !== first });
  };
  for (const e of events) {
    if (e.kind !== "stand" || e.id !== id || e.to === stand) continue;
    close(e.ms);
    [from, stand] = [e.ms, e.to];
  }
  close(end);
  return spans;
}

function spansOf(ms: readonly number[], bits: readonly number[], end: number): readonly Span[] {
  const spans: Span[] = [];
  let from = 0;
  const close = (to: number, bit: number) => {
    if (to > from) spans.push({ from, to, says: bit === 1 ? "in" : "out", isOn: bit === 1 });
  };
  bits.forEach((bit, k) => {
    const last = bits[k - 1] ?? bit;
    const at = ms[k] ?? 0;
    if (bit === last || at > end) return;
    close(at, last);
    from = at;
  });
  const lastAt = ms.findLastIndex((m) => m <= end);
  close(end, bits[lastAt] ?? 0);
  return spans;
}

/** What a lane reads at a moment, in words. */
export function readingAt(lane: Lane, ms: readonly number[], at: number): string {
  if (lane.kind === "bar") return (lane.spans.find((s) => at < s.to) ?? lane.spans.at(-1))?.says ?? "";
  const value = lineAt(lane, ms, at);
  if (value === undefined) return "held by nothing";
  return lane.unit === "A" ? amps(value) : volts(value);
}

/** The value of a line at a moment; undefined where nothing holds the terminal. */
export function lineAt({ values }: LineLane, ms: readonly number[], at: number): number | undefined {
  const last = ms.findLastIndex((m) => m <= at);
  if (values[last] == null) return undefined;
  // Up to where nothing holds it any more.
  if (values[last + 1] == null) return values[last] ?? undefined;
  return valueAt(ms, values as readonly number[], at);
}

/** The terminals of a finding that are looked at first: where the coil that holds gets its feed. */
export function firstTerminals(finding: Finding | undefined): readonly string[] {
  const relay = finding?.hold?.ring[0];
  const own = finding?.path.filter((t) => t.startsWith(`${relay}.`)) ?? [];
  // The path leaves the coil at the last of its terminals.
  return own.at(-2) === undefined ? [] : [own.at(-2) as string];
}
