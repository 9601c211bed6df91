import type { ResolvedLoom } from "@loomproof/netlist";
import type { Frame, Rect } from "../frame.ts";
import { graphOf } from "../graph.ts";
import type { Placed } from "../layout.ts";
import { potentialsOf } from "../potentials.ts";
import { adopt } from "./adopt.ts";
import { arrive } from "./arrivals.ts";
import { reroute } from "./reroute.ts";
import { Taken } from "./taken.ts";

/** More new boxes than this share, and the drawing is laid out afresh. */
const MOST_NEW = 0.34;

/**
 * A changed loom in its old drawing: old parts, pins, bars and routes stay, what is new goes where it is free and near
 * its partners. Undefined if that cannot be done without a fault.
 */
export function keepLayout(loom: ResolvedLoom, old: Placed): Placed | undefined {
  const potentials = potentialsOf(loom, knownTo(loom, old));
  const graph = graphOf(loom, potentials);
  const kept = adopt(graph, old, new Taken(old.frame, old.routed));
  const bars = new Map([...old.frame.bars].filter(([id]) => graph.boxes.get(id)?.kind === "bar"));
  const known = kept.size + bars.size;
  if (graph.boxes.size - known > Math.max(3, MOST_NEW * graph.boxes.size)) return undefined;
  const now = { ...graph, boxes: new Map([...graph.boxes].map(([id, b]) => [id, kept.get(id)?.box ?? b])) };
  const arrived = arrive(now, { boxes: new Map(kept), bars }, (frame) => new Taken(frame, old.routed));
  if (arrived === undefined || !isApart(arrived)) return undefined;
  const before = new Map(old.graph.links.map((l) => [l.id, l]));
  const routed = reroute(now, arrived, old.routed, ({ id, a, b }) => {
    const was = before.get(id);
    const sameEnd = (p: typeof a, q: typeof a | undefined) => p.box === q?.box && p.terminal === q.terminal;
    const stood = (p: typeof a) => kept.has(p.box) || bars.has(p.box);
    return sameEnd(a, was?.a) && sameEnd(b, was?.b) && stood(a) && stood(b);
  });
  return routed && { graph: now, frame: arrived, routed, loomWires: loom.wires, potentials, zones: old.zones, zoning: old.zoning };
}

/** Terminals that are still there keep what turned their parts. */
const knownTo = (loom: ResolvedLoom, old: Placed) => {
  const now = new Set(loom.parts.flatMap((p) => p.terminals.map((t) => `${p.id}.${t.name}`)));
  return new Map([...old.potentials].filter(([t]) => now.has(t)));
};

const meet = (p: Rect, q: Rect): boolean => p.x0 < q.x1 && q.x0 < p.x1 && p.y0 < q.y1 && q.y0 < p.y1;

function isApart({ boxes }: Frame): boolean {
  const rooms = [...boxes.values()].map((b) => b.room);
  return rooms.every((p, i) => rooms.every((q, j) => j <= i || !meet(p, q)));
}
