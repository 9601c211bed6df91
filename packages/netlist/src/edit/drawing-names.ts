import type { DrawingText, PlaceText } from "../loom/schema.ts";
import { keyed } from "./keyed.ts";

// Names in a drawing. A place is that of a part (K3), of a part or joint in one of several zones (A1~2), of a piece of a
// part (X1~a1), of a ground mark (W4@XE1) or of a flag where a wire goes on in another zone (W5~2 tag); a route that of a
// wire (W5) or of what one zone shows of it (W5~2).

type Rename = (id: string) => string;

const PLACE = /^(?:(?<wire>[^~@ ]+)@(?<ground>[^~@ ]+)|(?<part>[^~@ ]+)(?<slice>~[^~@ ]+)?(?<tag> tag)?)$/;

function placeName(name: string, part: Rename, wire: Rename): string {
  const g = PLACE.exec(name)?.groups;
  if (g === undefined) return name;
  if (g.wire !== undefined) return `${wire(g.wire)}@${part(g.ground ?? "")}`;
  const own = g.tag === undefined ? part : wire;
  return `${own(g.part ?? "")}${g.slice ?? ""}${g.tag ?? ""}`;
}

const routeName = (name: string, wire: Rename): string => {
  const [id = "", ...slice] = name.split("~");
  return [wire(id), ...slice].join("~");
};

const same: Rename = (id) => id;

/** A drawing in which a part or one of its terminals (`PART.terminal`) bears another name. */
export function drawingWithPart(drawing: DrawingText, part: Rename, terminal: Rename): DrawingText {
  const turned = (id: string, place: PlaceText): PlaceText => {
    const owner = PLACE.exec(id)?.groups?.part ?? "";
    const own: Rename = (t) => terminal(`${owner}.${t}`).replace(/^[^.]*\./, "");
    const { order, above, below } = place;
    return {
      ...place,
      ...(order === undefined ? {} : { order: order.map((o) => (Array.isArray(o) ? o.map(own) : own(o))) }),
      ...(above === undefined ? {} : { above: keyed(above, own) }),
      ...(below === undefined ? {} : { below: keyed(below, own) }),
    };
  };
  const { places, zones } = drawing;
  return {
    ...drawing,
    ...(places === undefined
      ? {}
      : {
          places: Object.fromEntries(
            Object.entries(places).map(([id, p]) => [placeName(id, part, same), turned(id, p)]),
          ),
        }),
    ...(zones === undefined ? {} : { zones: zones.map((z) => ({ ...z, parts: z.parts.map(part) })) }),
  };
}

/** A drawing in which a wire bears another number. */
export const drawingWithWire = (drawing: DrawingText, wire: Rename): DrawingText => ({
  ...drawing,
  ...(drawing.routes === undefined ? {} : { routes: keyed(drawing.routes, (k) => routeName(k, wire)) }),
  ...(drawing.places === undefined
    ? {}
    : {
        places: Object.fromEntries(
          Object.entries(drawing.places).map(([k, place]) => [
            placeName(k, same, wire),
            place.dots === undefined ? place : { ...place, dots: keyed(place.dots, (d) => routeName(d, wire)) },
          ]),
        ),
      }),
});
