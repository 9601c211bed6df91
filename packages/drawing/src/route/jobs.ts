import type { Frame, PlacedBox, Rect } from "../layout/frame.ts";
import type { Graph, GraphPin, Link } from "../layout/graph.ts";
import { pinX } from "../layout/columns.ts";
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
const DOWN: Way = 1;
const UP: Way = 3;

const DOT_STEP = 2;

/** One wire begins at the edge of the room; several begin at dots a little further out. */
function leadOf(placed: PlacedBox, pin: GraphPin, terminal: string, wires: number): Lead {
  const x = pinX(placed.box, placed.x, pin.terminal);
  const isTop = pin.side === "top";
  const from = { x, y: isTop ? placed.y : placed.y + placed.box.h };
  const edge = isTop ? Math.ceil(placed.room.y0) : Math.floor(placed.room.y1);
  const at = (steps: number): Point => ({ x, y: isTop ? edge - steps : edge + steps });
  if (wires <= 1) return { terminal, from, to: at(1), dots: [] };
  const dots = Array.from({ length: Math.max(1, Math.ceil((wires - 1) / 2)) }, (_, i) => at(2 + i * DOT_STEP));
  return { terminal, from, to: dots[dots.length - 1] ?? at(2), dots };
}

/** What is to be routed, with everything that stands in the way. */
export function jobsOf(graph: Graph, frame: Frame): Jobs {
  const wiresAt = new Map<string, number>();
  for (const l of graph.links)
    for (const e of [l.a, l.b])
      if (e.terminal !== "") wiresAt.set(`${e.box}.${e.terminal}`, (wiresAt.get(`${e.box}.${e.terminal}`) ?? 0) + 1);
  const leads = new Map<string, Lead>();
  const begun = new Map<string, number>();
  const endOf = (link: Link, end: Link["a"], other: Link["a"]): RouteEnd => {
    const bar = frame.bars.get(end.box);
    if (bar !== undefined) {
      const at = { x: bar.dots.get(link.wire.id) ?? bar.x0, y: bar.y };
      const far = frame.boxes.get(other.box)?.y ?? frame.bars.get(other.box)?.y ?? 0;
      return { at, ways: far < bar.y ? [UP, DOWN] : [DOWN, UP] };
    }
    const placed = frame.boxes.get(end.box);
    const pin = placed?.box.pins.find((p) => p.terminal === end.terminal);
    if (placed === undefined || pin === undefined) throw new Error(`layout: no pin ${end.box}.${end.terminal}`);
    const key = `${end.box}.${end.terminal}`;
    const lead = leads.get(key) ?? leadOf(placed, pin, key, wiresAt.get(key) ?? 1);
    leads.set(key, lead);
    const out = pin.side === "top" ? UP : DOWN;
    const nth = begun.get(key) ?? 0;
    begun.set(key, nth + 1);
    const dot = Math.min(Math.floor(nth / 2), lead.dots.length - 1);
    const isLast = dot === lead.dots.length - 1;
    return { at: lead.dots[dot] ?? lead.to, ways: lead.dots.length > 0 && !isLast ? [0, 2] : [out, 0, 2] };
  };
  const jobs = graph.links.map((l): RouteJob => ({ id: l.wire.id, a: endOf(l, l.a, l.b), b: endOf(l, l.b, l.a) }));
  const rooms = [...frame.boxes.values()].map((b) => b.room);
  const xs = [...rooms.flatMap((r) => [r.x0, r.x1]), ...[...frame.bars.values()].flatMap((b) => [b.x0, b.x1])];
  const ys = rooms.flatMap((r) => [r.y0, r.y1]);
  const bounds = {
    x0: Math.min(...xs, 0) - MARGIN,
    y0: Math.min(...ys, 0) - MARGIN,
    x1: Math.max(...xs, 1) + MARGIN,
    y1: Math.max(...ys, 1) + MARGIN,
  };
  return { jobs, leads: [...leads.values()], rooms, bounds };
}
