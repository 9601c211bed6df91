import type { DrawingText, ResolvedLoom } from "@loomproof/netlist";
import { type PlacedBox, roomOf } from "../layout/frame.ts";
import { graphOf } from "../layout/graph.ts";
import { Taken } from "../layout/keep/taken.ts";
import type { Placed } from "../layout/layout.ts";
import type { Point } from "../route/grid.ts";
import { PX, type Scene, type Spot } from "../scene/items.ts";
import { clearOf, putAt, withLeads } from "./move.ts";
import { nearestPlace } from "./nearest.ts";

/** Length of a splice that nothing is wired to, units. */
const BARE_BAR = 2;

/**
 * Puts a new part where a hand lets it go: its middle at a spot of the sheet.
 *
 * @param loom with the part, which nothing is wired to
 * @param near whether it may stand beside the spot, where nothing else stands
 */
export function put(
  loom: ResolvedLoom,
  placed: Placed,
  drawing: DrawingText,
  part: string,
  middle: Spot,
  near: boolean,
): DrawingText {
  const box = graphOf(loom, new Map()).boxes.get(part);
  if (box === undefined) return drawing;
  const { w, h } = box.kind === "bar" ? { w: BARE_BAR, h: 0 } : box;
  const at = { x: Math.round(middle.x - w / 2), y: Math.round(middle.y - h / 2) };
  const clear = () => clearOf(placed, () => true, [withLeads(roomOf(box, 0, 0))], at);
  const spot = (near ? freeNear(placed, box, at) : undefined) ?? clear();
  const drawn = putAt(drawing, { box, ...spot, room: roomOf(box, spot.x, spot.y) });
  if (box.kind !== "bar") return drawn;
  return { ...drawn, places: { ...drawn.places, [part]: { at: [spot.x, spot.y], length: BARE_BAR, dots: {} } } };
}

/** The nearest place with room for wires around it. */
function freeNear({ frame, routed }: Placed, box: PlacedBox["box"], wish: Point): Point | undefined {
  const taken = new Taken(frame, routed);
  const { x0, x1, y0, y1 } = roomOf(box, 0, 0);
  return nearestPlace(wish, FURTHEST, ({ x, y }) =>
    taken.isFree({ x0: x + x0 - ROUND.x, x1: x + x1 + ROUND.x, y0: y + y0 - ROUND.y, y1: y + y1 + ROUND.y }),
  );
}

const FURTHEST = 160;
/** Wires leave upwards and downwards. */
const ROUND = { x: 2, y: 4 };

/** A spot of the sheet in units of the layout. */
export const unitsAt = ({ origin }: Scene, { x, y }: Spot): Spot => ({
  x: (x + origin.x) / PX,
  y: (y + origin.y) / PX,
});
