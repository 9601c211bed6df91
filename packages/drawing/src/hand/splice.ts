import type { DrawingText, PlaceText } from "@loomproof/netlist";
import { shownAs } from "../layout/graph.ts";
import { cellsOf } from "../layout/keep/taken.ts";
import type { Placed } from "../layout/layout.ts";
import { corners } from "../route/route.ts";
import type { Spot } from "../scene/items.ts";

/**
 * Puts a splice on a wire of a drawing, where both halves of the wire stay as they run.
 *
 * @param at near a spot of the wire, in units
 * @param placed the layout before the splice
 * @param next the number of the half that goes on to the far end of the wire
 */
export function spliced(
  placed: Placed,
  drawing: DrawingText,
  wire: string,
  at: Spot,
  splice: string,
  next: string,
): DrawingText {
  const link = placed.graph.links.find((l) => l.id === wire);
  const path = cellsOf((drawing.routes?.[wire] ?? []).map(([x, y]) => ({ x, y })));
  // A ground tail has no route: the splice then finds its own place.
  if (link === undefined || path.length < 3) return drawing;
  const inner = path.slice(1, -1);
  const away = (p: Spot) => Math.abs(p.x - at.x) + Math.abs(p.y - at.y);
  const best = inner.reduce((b, p, i) => (away(p) < away(inner[b] as Spot) ? i : b), 0) + 1;
  const spot = path[best] as Spot;
  const runOf = (cells: readonly Spot[]) => corners(cells).map(({ x, y }): [number, number] => [x, y]);
  const [first, second] = [runOf(path.slice(0, best + 1)), runOf(path.slice(best))];
  // A wire to a ground point is drawn from its other end, whichever way it is written.
  const isForward = shownAs(link.a.box) === shownAs(link.wire.from.part);
  const [own, other] = isForward ? [first, second] : [second, first];
  const ground = `${wire}@${link.wire.to.part}`;
  const { [ground]: mark, ...rest } = drawing.places ?? {};
  const places: Record<string, PlaceText> =
    mark === undefined ? rest : { ...rest, [`${next}@${link.wire.to.part}`]: mark };
  const renamed = Object.fromEntries(
    Object.entries(places).map(([id, place]) => [
      id,
      place.dots !== undefined && id === link.wire.to.part
        ? { ...place, dots: movedDot(place.dots, wire, next) }
        : place,
    ]),
  );
  return {
    ...drawing,
    places: { ...renamed, [splice]: { at: [spot.x, spot.y], length: 0, dots: { [wire]: 0, [next]: 0 } } },
    routes: { ...drawing.routes, [wire]: own, [next]: other },
  };
}

const movedDot = (dots: Readonly<Record<string, number>>, from: string, to: string): Record<string, number> =>
  Object.fromEntries(Object.entries(dots).map(([wire, at]) => [wire === from ? to : wire, at]));
