import type { ResolvedLoom } from "@loomproof/netlist";
import type { Frame, Rect } from "../frame.ts";
import { graphOf } from "../graph.ts";
import type { Placed } from "../layout.ts";
import { potentialsOf } from "../potentials.ts";
import { joinedBy } from "../zones/assign.ts";
import type { PlacedZone } from "../zones/pack.ts";
import { split } from "../zones/split.ts";
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
  const whole = graphOf(loom, potentials);
  const zoning = old.zoning && joinedBy(old.zoning, old.loomWires, loom);
  const sheets = zoning === undefined ? [whole] : split(whole, zoning);
  const zoneOf = new Map(sheets.flatMap((s, z) => [...s.boxes.keys()].map((id): [string, number] => [id, z])));
  const graph = { boxes: new Map(sheets.flatMap((s) => [...s.boxes])), links: sheets.flatMap((s) => s.links) };
  const kept = adopt(graph, old, new Taken(old.frame, old.routed));
  const bars = new Map([...old.frame.bars].filter(([id]) => graph.boxes.get(id)?.kind === "bar"));
  const known = kept.size + bars.size;
  if (graph.boxes.size - known > Math.max(3, MOST_NEW * graph.boxes.size)) return undefined;
  const now = { ...graph, boxes: new Map([...graph.boxes].map(([id, b]) => [id, kept.get(id)?.box ?? b])) };
  // Other zones are closed to what is new in one.
  const closedTo = (box: string | undefined) =>
    old.zones.filter((_, z) => box !== undefined && z !== zoneOf.get(box)).map((z) => z.room);
  const arrived = arrive(
    now,
    { boxes: new Map(kept), bars },
    (frame, box) => new Taken(frame, old.routed, closedTo(box)),
  );
  if (arrived === undefined || !isApart(arrived)) return undefined;
  const before = new Map(old.graph.links.map((l) => [l.id, l]));
  const routed = reroute(now, arrived, old.routed, ({ id, a, b }) => {
    const was = before.get(id);
    const sameEnd = (p: typeof a, q: typeof a | undefined) => p.box === q?.box && p.terminal === q.terminal;
    const stood = (p: typeof a) => kept.has(p.box) || bars.has(p.box);
    return sameEnd(a, was?.a) && sameEnd(b, was?.b) && stood(a) && stood(b);
  });
  return (
    routed && {
      graph: now,
      frame: arrived,
      routed,
      loomWires: loom.wires,
      potentials,
      zones: old.zones.map((z, i) =>
        grown(
          z,
          [...arrived.boxes].flatMap(([id, b]) => (zoneOf.get(id) === i ? [b.room] : [])),
        ),
      ),
      zoning,
    }
  );
}

/** Terminals that are still there keep what turned their parts. */
const knownTo = (loom: ResolvedLoom, old: Placed) => {
  const now = new Set(loom.parts.flatMap((p) => p.terminals.map((t) => `${p.id}.${t.name}`)));
  return new Map([...old.potentials].filter(([t]) => now.has(t)));
};

const BORDER = 2;

/** A zone whose border also holds what came to it. */
function grown({ name, room }: PlacedZone, rooms: readonly Rect[]): PlacedZone {
  return {
    name,
    room: {
      x0: Math.min(room.x0, ...rooms.map((r) => Math.floor(r.x0) - BORDER)),
      y0: Math.min(room.y0, ...rooms.map((r) => Math.floor(r.y0) - BORDER)),
      x1: Math.max(room.x1, ...rooms.map((r) => Math.ceil(r.x1) + BORDER)),
      y1: Math.max(room.y1, ...rooms.map((r) => Math.ceil(r.y1) + BORDER)),
    },
  };
}

const meet = (p: Rect, q: Rect): boolean => p.x0 < q.x1 && q.x0 < p.x1 && p.y0 < q.y1 && q.y0 < p.y1;

function isApart({ boxes }: Frame): boolean {
  const rooms = [...boxes.values()].map((b) => b.room);
  return rooms.every((p, i) => rooms.every((q, j) => j <= i || !meet(p, q)));
}
