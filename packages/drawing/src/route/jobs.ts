import { pinX } from "../layout/columns.ts";
import type { Frame, PlacedBox, Rect } from "../layout/frame.ts";
import type { Graph, GraphPin, Link } from "../layout/graph.ts";
import type { Point, RouteEnd, RouteJob, Way } from "./grid.ts";

/**
 * A lead from a terminal to where its wires begin: through the room of its own part, then to a dot if there are several.
 * A dot has room for three; more wires make more dots, one after the other.
 */
export interface Lead {
  readonly terminal: string;
  readonly from: Point;
  /** Its end, the last dot. */
  readonly to: Point;
  readonly dots: readonly Point[];
}

export interface Jobs {
  readonly jobs: readonly RouteJob[];
  readonly leads: readonly Lead[];
  readonly rooms: readonly Rect[];
  readonly bounds: Rect;
}

const MARGIN = 14;
const RIGHT: Way = 0;
const DOWN: Way = 1;
const LEFT: Way = 2;
const UP: Way = 3;

const DOT_STEP = 2;

/** How a wire begins at a terminal that it shares: at which dot, and in which directions it may leave. */
interface Begin {
  readonly dot: number;
  readonly ways: readonly Way[];
}

/**
 * One wire begins at the edge of the room; several begin at dots a little further out. Of those that go the same way the
 * furthest begins first, so that they do not cross; the one that goes straightest begins last.
 */
function leadOf(
  placed: PlacedBox,
  pin: GraphPin,
  terminal: string,
  targets: readonly Target[],
): { readonly lead: Lead; readonly begins: ReadonlyMap<string, Begin> } {
  const x = pinX(placed.box, placed.x, pin.terminal);
  const isTop = pin.side === "top";
  const out: Way = isTop ? UP : DOWN;
  const from = { x, y: isTop ? placed.y : placed.y + placed.box.h };
  const edge = isTop ? Math.ceil(placed.room.y0) : Math.floor(placed.room.y1);
  const at = (steps: number): Point => ({ x, y: isTop ? edge - steps : edge + steps });
  if (targets.length <= 1) {
    const begins = new Map(targets.map((t) => [t.wire, { dot: -1, ways: [out, RIGHT, LEFT] }]));
    return { lead: { terminal, from, to: at(1), dots: [] }, begins };
  }
  const far = targets.toSorted((p, q) => Math.abs(q.x - x) - Math.abs(p.x - x) || (p.wire < q.wire ? -1 : 1));
  const straight = far.at(-1)?.wire ?? "";
  const rest = far.slice(0, -1);
  const fewest = Math.ceil(rest.length / 2);
  const isRight = (t: Target) => t.x > x || (t.x === x && t.wire > straight);
  const most = Math.max(rest.filter(isRight).length, rest.filter((t) => !isRight(t)).length);
  const count = Math.max(1, Math.min(most, fewest + 1));
  const begins = new Map<string, Begin>([[straight, { dot: count - 1, ways: [out, RIGHT, LEFT] }]]);
  const used = { right: 0, left: 0 };
  for (const t of rest) {
    const right = isRight(t) ? used.right < count : used.left >= count;
    const dot = right ? used.right++ : used.left++;
    const isLast = dot === count - 1;
    begins.set(t.wire, { dot, ways: isLast ? [out, RIGHT, LEFT] : [RIGHT, LEFT] });
  }
  const dots = Array.from({ length: count }, (_, i) => at(2 + i * DOT_STEP));
  return { lead: { terminal, from, to: dots[count - 1] ?? at(2), dots }, begins };
}

interface Target {
  readonly wire: string;
  /** Where its other end stands. */
  readonly x: number;
}

/** What is to be routed, with everything that stands in the way. */
export function jobsOf(graph: Graph, frame: Frame): Jobs {
  const xOf = (wire: string, end: Link["a"]): number => {
    const placed = frame.boxes.get(end.box);
    return placed === undefined
      ? (frame.bars.get(end.box)?.dots.get(wire) ?? 0)
      : pinX(placed.box, placed.x, end.terminal);
  };
  const targets = new Map<string, Target[]>();
  for (const { id, a, b } of graph.links)
    for (const [own, far] of [
      [a, b],
      [b, a],
    ] as const) {
      if (own.terminal === "") continue;
      const key = `${own.box}.${own.terminal}`;
      targets.set(key, [...(targets.get(key) ?? []), { wire: id, x: xOf(id, far) }]);
    }
  const leads = new Map<string, ReturnType<typeof leadOf>>();
  const endOf = (link: Link, end: Link["a"], other: Link["a"]): RouteEnd => {
    const bar = frame.bars.get(end.box);
    if (bar !== undefined) {
      const at = { x: bar.dots.get(link.id) ?? bar.x0, y: bar.y };
      const far = frame.boxes.get(other.box)?.y ?? frame.bars.get(other.box)?.y ?? 0;
      return { at, ways: far < bar.y ? [UP, DOWN] : [DOWN, UP] };
    }
    const placed = frame.boxes.get(end.box);
    const pin = placed?.box.pins.find((p) => p.terminal === end.terminal);
    if (placed === undefined || pin === undefined) throw new Error(`layout: no pin ${end.box}.${end.terminal}`);
    const key = `${end.box}.${end.terminal}`;
    const made = leads.get(key) ?? leadOf(placed, pin, key, targets.get(key) ?? []);
    leads.set(key, made);
    const { dot, ways } = made.begins.get(link.id) ?? { dot: -1, ways: [] };
    return { at: made.lead.dots[dot] ?? made.lead.to, ways };
  };
  const jobs = graph.links.map((l): RouteJob => ({ id: l.id, a: endOf(l, l.a, l.b), b: endOf(l, l.b, l.a) }));
  const rooms = [...frame.boxes.values()].map((b) => b.room);
  const xs = [...rooms.flatMap((r) => [r.x0, r.x1]), ...[...frame.bars.values()].flatMap((b) => [b.x0, b.x1])];
  const ys = rooms.flatMap((r) => [r.y0, r.y1]);
  const bounds = {
    x0: Math.min(...xs, 0) - MARGIN,
    y0: Math.min(...ys, 0) - MARGIN,
    x1: Math.max(...xs, 1) + MARGIN,
    y1: Math.max(...ys, 1) + MARGIN,
  };
  return { jobs, leads: [...leads.values()].map((l) => l.lead), rooms, bounds };
}

/** What a lead fills outside the room of its part: its end, and the run between its dots. */
export function leadCells({ to, dots: [first = to] }: Lead): readonly Point[] {
  const step = Math.sign(to.y - first.y) || 1;
  return Array.from({ length: Math.abs(to.y - first.y) + 1 }, (_, i) => ({ x: to.x, y: first.y + i * step }));
}
