import { type Columns, pinX } from "./columns.ts";
import type { Graph } from "./graph.ts";
import type { Rows } from "./rows.ts";

// Splices as level bars: which of those in one channel stands above which, and where each wire meets them.

export interface PlacedBar {
  readonly id: string;
  readonly y: number;
  readonly x0: number;
  readonly x1: number;
  /** One dot a wire, by wire id. */
  readonly dots: ReadonlyMap<string, number>;
}

const DOT_PITCH = 2;
/** Bars on one level keep room for a name between them. */
const APART = 12;

interface Reach {
  readonly id: string;
  readonly x0: number;
  readonly x1: number;
  readonly up: readonly number[];
  readonly down: readonly number[];
}

const endsOf = (graph: Graph, bar: string) =>
  graph.links.flatMap((l) => {
    if (l.a.box !== bar && l.b.box !== bar) return [];
    return [{ wire: l.id, far: l.a.box === bar ? l.b : l.a }];
  });

function reachOf(graph: Graph, rows: Rows, columns: Columns, id: string): Reach {
  const [up, down]: [number[], number[]] = [[], []];
  for (const { far } of endsOf(graph, id)) {
    const box = graph.boxes.get(far.box);
    if (box === undefined || box.kind === "bar") continue;
    const isUp = (rows.get(far.box) ?? 0) < (rows.get(id) ?? 0);
    (isUp ? up : down).push(pinX(box, columns.get(far.box) ?? 0, far.terminal));
  }
  const xs = [...up, ...down];
  return { id, up, down, x0: Math.min(...xs), x1: Math.max(...xs) };
}

const within = (xs: readonly number[], { x0, x1 }: Reach) => xs.filter((x) => x > x0 && x < x1).length;
/** Wires over bars if p stands over q. */
const crossings = (p: Reach, q: Reach): number => within(p.down, q) + within(q.up, p);

/** Level of each bar in its channel, 0 on top: as few wires over bars as can be; bars with room between them share one. */
export function barSlots(graph: Graph, rows: Rows, columns: Columns): ReadonlyMap<string, number> {
  const channels = new Map<number, Reach[]>();
  for (const box of graph.boxes.values()) {
    if (box.kind !== "bar") continue;
    const r = Math.floor(rows.get(box.id) ?? 0);
    channels.set(r, [...(channels.get(r) ?? []), reachOf(graph, rows, columns, box.id)]);
  }
  const slots = new Map<string, number>();
  for (const bars of channels.values()) {
    const order = sorted(bars);
    const levels: Reach[][] = [];
    for (const bar of order) {
      // As high as it may stand: under every bar that it meets.
      let at = levels.length;
      while (at > 0 && levels[at - 1]?.every((b) => b.x1 + APART < bar.x0 || bar.x1 + APART < b.x0)) at--;
      levels[at] = [...(levels[at] ?? []), bar];
      slots.set(bar.id, at);
    }
  }
  return slots;
}

/** By swaps of neighbours, until none helps. */
function sorted(bars: readonly Reach[]): readonly Reach[] {
  const order = [...bars];
  for (let round = 0; round < order.length; round++) {
    let swapped = false;
    for (let i = 1; i < order.length; i++) {
      const [p, q] = [order[i - 1] as Reach, order[i] as Reach];
      if (crossings(q, p) >= crossings(p, q)) continue;
      [order[i - 1], order[i]] = [q, p];
      swapped = true;
    }
    if (!swapped) break;
  }
  return order;
}

interface Wish {
  readonly wire: string;
  readonly at: number;
  /** Whether the wire comes from above. */
  readonly up: boolean;
}

/**
 * Bars under or over their wires: a dot straight at each, moved aside where two would touch. One wire from above and one
 * from below may share a dot.
 */
export function barsOf(
  graph: Graph,
  columns: Columns,
  ys: ReadonlyMap<string, number>,
  yOf: (box: string) => number,
): ReadonlyMap<string, PlacedBar> {
  const wishes = new Map(
    [...ys].map(([id, y]): [string, Wish[]] => [
      id,
      endsOf(graph, id).flatMap(({ wire, far }) => {
        const box = graph.boxes.get(far.box);
        return box === undefined || box.kind === "bar"
          ? []
          : [{ wire, at: pinX(box, columns.get(far.box) ?? 0, far.terminal), up: yOf(far.box) < y }];
      }),
    ]),
  );
  const spanOf = (id: string) => {
    const xs = (wishes.get(id) ?? []).map((w) => w.at);
    return xs.length === 0 ? { x0: 0, x1: 0 } : { x0: Math.min(...xs), x1: Math.max(...xs) };
  };
  const spans = new Map([...ys.keys()].map((id) => [id, spanOf(id)]));
  // A wire from bar to bar stands where both are, or at the ends that are nearest to each other.
  for (const { id: wire, a, b } of graph.links) {
    const [p, q] = [spans.get(a.box), spans.get(b.box)];
    if (p === undefined || q === undefined || a.box === b.box) continue;
    const [left, right] = [Math.max(p.x0, q.x0), Math.min(p.x1, q.x1)];
    const isOver = left <= right;
    const at = (s: typeof p) => (isOver ? Math.round((left + right) / 2) : s.x1 <= right ? s.x1 : s.x0);
    const [ya, yb] = [ys.get(a.box) ?? 0, ys.get(b.box) ?? 0];
    wishes.get(a.box)?.push({ wire, at: at(p), up: yb < ya });
    wishes.get(b.box)?.push({ wire, at: at(q), up: ya <= yb });
  }
  return new Map(
    [...ys].map(([id, y]) => [
      id,
      barOf(
        id,
        y,
        wishes.get(id) ?? [],
        endsOf(graph, id).map((e) => e.wire),
      ),
    ]),
  );
}

function barOf(id: string, y: number, wishes: readonly Wish[], wires: readonly string[]): PlacedBar {
  const dots = new Map<string, number>();
  const taken = new Map<number, readonly boolean[]>();
  for (const { wire, at: wish, up } of wishes.toSorted((p, q) => p.at - q.at || (p.wire < q.wire ? -1 : 1))) {
    let at = wish;
    const meets = (x: number) => Math.abs(x - at) < DOT_PITCH && (x !== at || (taken.get(x) ?? []).includes(up));
    for (let x = [...taken.keys()].find(meets); x !== undefined; x = [...taken.keys()].find(meets)) at = x + DOT_PITCH;
    taken.set(at, [...(taken.get(at) ?? []), up]);
    dots.set(wire, at);
  }
  let last = Math.max(...dots.values());
  // A wire from a bar to itself.
  for (const wire of wires)
    if (!dots.has(wire)) {
      last = Number.isFinite(last) ? last + 2 * DOT_PITCH : 0;
      dots.set(wire, last);
    }
  const xs = [...dots.values()];
  // A joint that nothing is wired to is drawn all the same.
  return xs.length === 0
    ? { id, y, x0: 0, x1: DOT_PITCH, dots }
    : { id, y, x0: Math.min(...xs), x1: Math.max(...xs), dots };
}
