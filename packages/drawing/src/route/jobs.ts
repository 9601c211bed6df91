import type { Frame, Rect } from "../layout/frame.ts";
import type { Graph, Link } from "../layout/graph.ts";
import { pinX } from "../layout/place.ts";
import type { Point, RouteEnd, RouteJob, Way } from "./grid.ts";

/** A lead from a terminal to where its wires begin: through the room of its own part, then to a dot if there are several. */
export interface Lead {
  readonly terminal: string;
  readonly from: Point;
  readonly to: Point;
  /** Several wires leave from its end. */
  readonly dot: boolean;
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

/** What is to be routed, with everything that stands in the way. */
export function jobsOf(graph: Graph, frame: Frame): Jobs {
  const wiresAt = new Map<string, number>();
  for (const l of graph.links)
    for (const e of [l.a, l.b])
      if (e.terminal !== "") wiresAt.set(`${e.box}.${e.terminal}`, (wiresAt.get(`${e.box}.${e.terminal}`) ?? 0) + 1);
  const leads = new Map<string, Lead>();
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
    const x = pinX(placed.box, placed.x, end.terminal);
    const key = `${end.box}.${end.terminal}`;
    const several = (wiresAt.get(key) ?? 0) > 1;
    const isTop = pin.side === "top";
    // One wire begins at the edge of the room; several begin at a dot a little further out.
    const y = isTop ? Math.ceil(placed.room.y0) - (several ? 2 : 1) : Math.floor(placed.room.y1) + (several ? 2 : 1);
    leads.set(key, {
      terminal: key,
      from: { x, y: isTop ? placed.y : placed.y + placed.box.h },
      to: { x, y },
      dot: several,
    });
    const out = isTop ? UP : DOWN;
    return { at: { x, y }, ways: several ? [out, 0, 2] : [out, 0, 2] };
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
