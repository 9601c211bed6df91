import type { DrawingText, PlaceText } from "@loomproof/netlist";
import { isIn, type PlacedBox, type Rect, roomOf } from "../layout/frame.ts";
import { shownAs } from "../layout/graph.ts";
import { cellsOf } from "../layout/keep/taken.ts";
import type { Placed } from "../layout/layout.ts";
import type { Point } from "../route/grid.ts";
import { overlaps } from "../scene/rooms.ts";
import { nearestPlace } from "./nearest.ts";

// What a hand does to a drawing: places and routes in, places and routes out. Routes that do not fit any more are left
// out; `layout` finds new ones.

/**
 * Moves a box of a drawing by whole units, with the ground marks that hang on it, or to the nearest place clear of others.
 *
 * @param placed the layout of this drawing
 */
export function moved(placed: Placed, drawing: DrawingText, box: string, right: number, down: number): DrawingText {
  const going = new Set([box, ...marksOf(placed, box)]);
  const own = roomsOf(placed, (id) => going.has(id));
  const { x: dx, y: dy } = clearOf(placed, (id) => !going.has(id), own, { x: right, y: down });
  const places = mapped(
    drawing.places ?? {},
    (place, id): PlaceText => (going.has(id) ? { ...place, at: [place.at[0] + dx, place.at[1] + dy] } : place),
  );
  const { links } = placed.graph;
  const along = new Set(links.filter((l) => going.has(l.a.box) && going.has(l.b.box)).map((l) => l.id));
  const routes = mapped(drawing.routes ?? {}, (path, id): [number, number][] =>
    along.has(id) ? path.map(([x, y]) => [x + dx, y + dy]) : path,
  );
  const rooms = own.map((r) => withLeads(shifted(r, dx, dy)));
  const pulled = links.filter((l) => going.has(l.a.box) || going.has(l.b.box)).map((l) => l.id);
  const loose = new Set([...pulled, ...through(drawing, rooms)].filter((id) => !along.has(id)));
  return loosened({ ...drawing, places, routes }, loose, going);
}

/** Where rooms can be shifted, nearest to a wish, so that they meet no other: as wished if there is no such place. */
export function clearOf(placed: Placed, isOther: (box: string) => boolean, rooms: readonly Rect[], wish: Point): Point {
  const others = roomsOf(placed, isOther);
  const isClear = ({ x, y }: Point) => rooms.every((r) => others.every((o) => !overlaps(shifted(r, x, y), o)));
  return nearestPlace(wish, FURTHEST, isClear) ?? wish;
}

/** Rooms of boxes and of bars, which need one unit around them. */
const roomsOf = ({ frame }: Placed, isWanted: (box: string) => boolean): readonly Rect[] => [
  ...[...frame.boxes.values()].filter((b) => isWanted(b.box.id)).map((b) => b.room),
  ...[...frame.bars.values()]
    .filter((b) => isWanted(b.id))
    .map(({ x0, x1, y }) => ({ x0: x0 - 1, x1: x1 + 1, y0: y - 1, y1: y + 1 })),
];

const shifted = ({ x0, x1, y0, y1 }: Rect, dx: number, dy: number): Rect => ({
  x0: x0 + dx,
  x1: x1 + dx,
  y0: y0 + dy,
  y1: y1 + dy,
});

/** Over and under a part its wires begin. */
const LEAD = 3;
export const withLeads = (r: Rect): Rect => ({ ...r, y0: r.y0 - LEAD, y1: r.y1 + LEAD });

const FURTHEST = 40;

/** Turns a box upside down: what faced up faces down. */
export function turned(placed: Placed, drawing: DrawingText, box: string): DrawingText {
  const at = placed.frame.boxes.get(box);
  const place = drawing.places?.[box];
  if (at === undefined || place === undefined) return drawing;
  const { part } = at.box;
  const now: PlaceText = at.box.stretches
    ? { ...place, above: place.below ?? {}, below: place.above ?? {} }
    : { ...place, order: (place.order ?? (part?.terminals ?? []).map((t) => t.name)).toReversed() };
  return loosened({ ...drawing, places: { ...drawing.places, [box]: now } }, linksAt(placed, box), new Set());
}

/** Draws a box as in a mirror, left for right. */
export function mirrored(placed: Placed, drawing: DrawingText, box: string): DrawingText {
  const at = placed.frame.boxes.get(box);
  const place = drawing.places?.[box];
  if (at === undefined || place === undefined) return drawing;
  const flip = (edge: PlaceText["above"]) => edge && mapped(edge, (x) => at.box.w - x);
  const { mirrored: was, ...rest } = place;
  const now: PlaceText = at.box.stretches
    ? { ...place, above: flip(place.above), below: flip(place.below) }
    : { ...rest, ...(was === true ? {} : { mirrored: true }) };
  return loosened({ ...drawing, places: { ...drawing.places, [box]: now } }, linksAt(placed, box), new Set());
}

/** Whether a box looks another way in a mirror, and upside down. */
export const turnsOf = (placed: Placed, box: string): { readonly turns: boolean; readonly mirrors: boolean } => {
  const at = placed.frame.boxes.get(box)?.box;
  const isPart = at?.kind === "part";
  return { turns: isPart, mirrors: isPart && (at.mirrors || at.stretches) };
};

/** Puts a box somewhere: routes that ran there find another way. */
export function putAt(drawing: DrawingText, { box, x, y }: PlacedBox): DrawingText {
  const places = { ...drawing.places, [box.id]: { at: [x, y] as [number, number] } };
  return loosened({ ...drawing, places }, through(drawing, [withLeads(roomOf(box, x, y))]), new Set([box.id]));
}

/** The box that shows a part, the first of them where it is drawn in several; undefined if it has none of its own. */
export function boxOf({ frame }: Placed, part: string): string | undefined {
  const ids = [...frame.boxes.keys(), ...frame.bars.keys()];
  return ids.find((id) => id === part) ?? ids.find((id) => shownAs(id) === part);
}

/** Ground marks of wires that leave from a box. */
const marksOf = ({ graph }: Placed, box: string): readonly string[] =>
  graph.links.flatMap(({ a, b }) => {
    const other = a.box === box ? b.box : b.box === box ? a.box : undefined;
    const kind = graph.boxes.get(other ?? "")?.kind;
    return other !== undefined && (kind === "ground" || kind === "tag") ? [other] : [];
  });

const linksAt = ({ graph }: Placed, box: string): ReadonlySet<string> =>
  new Set(graph.links.filter((l) => l.a.box === box || l.b.box === box).map((l) => l.id));

/** Routes that run through any of these rooms. */
const through = ({ routes = {} }: DrawingText, rooms: readonly Rect[]): ReadonlySet<string> =>
  new Set(
    Object.entries(routes).flatMap(([id, path]) => {
      const cells = cellsOf(path.map(([x, y]) => ({ x, y })));
      return cells.some((c) => rooms.some((r) => isIn(r, c))) ? [id] : [];
    }),
  );

/** Without these routes; splices that did not go along find new dots for them. */
function loosened(drawing: DrawingText, loose: ReadonlySet<string>, going: ReadonlySet<string>): DrawingText {
  const without = <T>(record: Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(Object.entries(record).filter(([id]) => !loose.has(id)));
  return {
    ...drawing,
    routes: without(drawing.routes ?? {}),
    places: mapped(drawing.places ?? {}, (place, id) =>
      place.dots === undefined || going.has(id) ? place : { ...place, dots: without(place.dots) },
    ),
  };
}

const mapped = <T, R>(record: Readonly<Record<string, T>>, of: (value: T, key: string) => R): Record<string, R> =>
  Object.fromEntries(Object.entries(record).map(([k, v]) => [k, of(v, k)]));
