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
  const names = old.zones.map(({ room }) => ({ ...room, y1: room.y0 + NAME_STRIP }));
  const reachOf = (box: string | undefined) => {
    const own = old.zones[zoneOf.get(box ?? "") ?? -1];
    return (
      own &&
      reach(
        own.room,
        old.zones.filter((z) => z !== own).map((z) => z.room),
      )
    );
  };
  const arrived = arrive(
    now,
    { boxes: new Map(kept), bars },
    (frame, box) => new Taken(frame, old.routed, names, reachOf(box)),
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
/** The name of a zone stands along its upper border. */
const NAME_STRIP = 3;

const FURTHEST = 40;

/** How far a zone may grow without meeting another: to the right, down, to the left, then up. */
function reach(room: Rect, others: readonly Rect[]): Rect {
  const beside = (r: Rect) => others.filter((o) => o.y0 < r.y1 + BORDER && r.y0 < o.y1 + BORDER);
  const inLine = (r: Rect) => others.filter((o) => o.x0 < r.x1 + BORDER && r.x0 < o.x1 + BORDER);
  const least = (from: number, list: readonly number[]) =>
    Math.min(from + FURTHEST, ...list.filter((v) => v >= from).map((v) => v - BORDER - 1));
  const most = (from: number, list: readonly number[]) =>
    Math.max(from - FURTHEST, ...list.filter((v) => v <= from).map((v) => v + BORDER + 1));
  let r = room;
  r = {
    ...r,
    x1: least(
      r.x1,
      beside(r).map((o) => o.x0),
    ),
  };
  r = {
    ...r,
    y1: least(
      r.y1,
      inLine(r).map((o) => o.y0),
    ),
  };
  r = {
    ...r,
    x0: most(
      r.x0,
      beside(r).map((o) => o.x1),
    ),
  };
  return {
    ...r,
    y0: most(
      r.y0,
      inLine(r).map((o) => o.y1),
    ),
  };
}

/** A zone whose border also holds what came to it. */
function grown({ name, room }: PlacedZone, rooms: readonly Rect[]): PlacedZone {
  return {
    name,
    room: {
      x0: Math.min(room.x0, ...rooms.map((r) => Math.floor(r.x0) - BORDER)),
      y0: Math.min(room.y0, ...rooms.map((r) => Math.floor(r.y0) - NAME_STRIP - 1)),
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
