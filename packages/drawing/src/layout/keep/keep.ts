import type { DrawingText, ResolvedLoom } from "@loomproof/netlist";
import { detached } from "../detached.ts";
import type { Frame, Rect } from "../frame.ts";
import { graphOf, shownAs } from "../graph.ts";
import type { Placed } from "../layout.ts";
import { type Potentials, potentialsOf } from "../potentials.ts";
import { joinedBy, type Zoning } from "../zones/assign.ts";
import type { PlacedZone } from "../zones/pack.ts";
import { split } from "../zones/split.ts";
import { barsIn, boxesIn, withNewPins } from "./adopt.ts";
import { arrive } from "./arrivals.ts";
import { potentialsIn } from "./drawing-of.ts";
import { leadsOf, reroute } from "./reroute.ts";
import { onAsking, Taken } from "./taken.ts";

/**
 * A loom in a drawing that it has: parts, pins, bars and routes stay where they are. What the drawing has not goes where
 * it is free and near its partners; a wire without a route, or whose route does not meet its ends any more, finds one.
 */
export function keepLayout(given: ResolvedLoom, drawing: DrawingText): Placed {
  const { places = {}, routes = {} } = drawing;
  const loom = detached(given, (id) => places[id] !== undefined);
  const potentials = turnedAs(loom, places);
  const whole = graphOf(loom, potentials, sidesIn(places));
  const zones = zonesIn(drawing);
  const zoning = zones.length === 0 ? undefined : joinedBy(zoningIn(drawing), sharedIn(places), loom);
  const sheets = zoning === undefined ? [whole] : split(whole, zoning);
  const zoneOf = new Map(sheets.flatMap((s, z) => [...s.boxes.keys()].map((id): [string, number] => [id, z])));
  const graph = { boxes: new Map(sheets.flatMap((s) => [...s.boxes])), links: sheets.flatMap((s) => s.links) };
  const paths = new Map(Object.entries(routes).map(([id, path]) => [id, path.map(([x, y]) => ({ x, y }))]));
  const bars = barsIn(graph, places);
  const before: Frame = { boxes: boxesIn(graph, places), bars };
  const old = { wires: paths, leads: leadsOf(graph, before, paths), pressed: 0 };
  const kept = withNewPins(
    graph,
    before.boxes,
    onAsking(() => new Taken(before, old)),
  );
  const now = { ...graph, boxes: new Map([...graph.boxes].map(([id, b]) => [id, kept.get(id)?.box ?? b])) };
  const names = zones.map(({ room }) => ({ ...room, y1: room.y0 + NAME_STRIP }));
  const reachOf = (box: string | undefined) => {
    const own = zones[zoneOf.get(box ?? "") ?? -1];
    return (
      own &&
      reach(
        own.room,
        zones.filter((z) => z !== own).map((z) => z.room),
      )
    );
  };
  const arrived = arrive(now, { boxes: kept, bars }, (frame, box) => new Taken(frame, old, names, reachOf(box)));
  const stood = (box: string) => kept.has(box) || bars.has(box);
  const routed = reroute(now, arrived, old, ({ a, b }) => stood(a.box) && stood(b.box));
  const ownRooms = (zone: number) => [...arrived.boxes].flatMap(([id, b]) => (zoneOf.get(id) === zone ? [b.room] : []));
  return {
    graph: now,
    frame: arrived,
    routed,
    loomWires: loom.wires,
    potentials,
    zones: zones.map((z, i) => grown(z, ownRooms(i))),
    zoning,
  };
}

type Places = NonNullable<DrawingText["places"]>;

/** The side of each pin of the boxes whose pins can be moved. */
const sidesIn = (places: Places): ReadonlyMap<string, "top" | "bottom"> =>
  new Map(
    Object.entries(places).flatMap(([id, { above = {}, below = {} }]) => {
      const part = shownAs(id);
      return [
        ...Object.keys(above).map((t) => [`${part}.${t}`, "top"] as const),
        ...Object.keys(below).map((t) => [`${part}.${t}`, "bottom"] as const),
      ];
    }),
  );

/** Parts that are drawn stay turned as they are; only what is new is turned by where feed comes from. */
function turnedAs(loom: ResolvedLoom, places: Places): Potentials {
  // A module may be drawn in several zones; a piece of a part bears a name of its own.
  const slices = new Map(Object.entries(places).map(([id, place]) => [shownAs(id), place]));
  const placeOf = (id: string) => places[id] ?? slices.get(id);
  const isDrawn = loom.parts.every((p) => placeOf(p.id) !== undefined);
  const fresh = isDrawn ? new Map<string, number>() : potentialsOf(loom);
  const known = loom.parts.flatMap((p) => {
    const place = placeOf(p.id);
    return place === undefined ? [] : potentialsIn(p, place);
  });
  return new Map([...fresh, ...known]);
}

const zonesIn = ({ zones = [] }: DrawingText): readonly PlacedZone[] =>
  zones.map(({ name, room: [x0, y0, x1, y1] }) => ({ name, room: { x0, y0, x1, y1 } }));

const zoningIn = ({ zones = [] }: DrawingText): Zoning => ({
  of: new Map(zones.flatMap(({ parts }, z) => parts.map((id): [string, number] => [id, z]))),
  names: zones.map(({ name }) => name.replace(/^\d+ /, "")),
});

/** Boxes and joints that several zones show. */
const sharedIn = (places: Places): ReadonlySet<string> =>
  new Set(Object.keys(places).flatMap((id) => (id.includes("~") ? [shownAs(id)] : [])));

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
  const right = {
    ...room,
    x1: least(
      room.x1,
      beside(room).map(({ x0 }) => x0),
    ),
  };
  const down = {
    ...right,
    y1: least(
      right.y1,
      inLine(right).map(({ y0 }) => y0),
    ),
  };
  const left = {
    ...down,
    x0: most(
      down.x0,
      beside(down).map(({ x1 }) => x1),
    ),
  };
  return {
    ...left,
    y0: most(
      left.y0,
      inLine(left).map(({ y1 }) => y1),
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
