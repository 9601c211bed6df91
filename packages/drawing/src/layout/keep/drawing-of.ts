import { type DrawingText, naturalOrder, type Part, type PlaceText } from "@loomproof/netlist";
import { symbolOf } from "../../symbols/index.ts";
import type { PlacedBox } from "../frame.ts";
import type { GraphPin } from "../graph.ts";
import type { Placed } from "../layout.ts";
import type { Potentials } from "../potentials.ts";

/** A drawing as the file keeps it. `layout` makes the same drawing of it again, to the point. */
export function drawingOf(placed: Placed): DrawingText {
  const { frame, routed, potentials, zones, zoning } = placed;
  const places: Record<string, PlaceText> = {};
  for (const [id, b] of frame.boxes) places[id] = placeOf(b, potentials);
  for (const [id, bar] of frame.bars)
    places[id] = {
      at: [bar.x0, bar.y],
      length: bar.x1 - bar.x0,
      dots: Object.fromEntries([...bar.dots].map(([wire, x]) => [wire, x - bar.x0])),
    };
  const partsIn = (z: number) =>
    [...(zoning?.of ?? [])]
      .filter(([, own]) => own === z)
      .map(([id]) => id)
      .sort(naturalOrder);
  return {
    ...(zones.length === 0
      ? {}
      : {
          zones: zones.map(({ name, room }, z) => ({
            name,
            room: [room.x0, room.y0, room.x1, room.y1],
            parts: partsIn(z),
          })),
        }),
    places,
    routes: Object.fromEntries([...routed.wires].map(([id, path]) => [id, path.map(({ x, y }) => [x, y])])),
  };
}

function placeOf({ box, x, y }: PlacedBox, potentials: Potentials): PlaceText {
  const at: [number, number] = [x, y];
  const mirrored = box.mirrored ? { mirrored: true as const } : {};
  if (box.stretches) {
    const edge = (side: GraphPin["side"]) =>
      Object.fromEntries(box.pins.filter((p) => p.side === side).map((p) => [p.terminal, p.x]));
    return { at, ...mirrored, above: edge("top"), below: edge("bottom"), width: box.w, height: box.h };
  }
  const order = box.kind === "part" && box.part !== undefined ? orderOf(box.part, potentials) : undefined;
  return { at, ...(order === undefined ? {} : { order }), ...mirrored };
}

type Order = NonNullable<PlaceText["order"]>;

/** Terminals from the feed end to the ground end; undefined where the catalogue's own order draws the same symbol. */
function orderOf(part: Part, potentials: Potentials): Order | undefined {
  const potential = (t: string) => potentials.get(`${part.id}.${t}`) ?? 0;
  const pins = (of: (t: string) => number) => JSON.stringify(symbolOf(part, of, () => undefined).pins);
  if (pins(potential) === pins(() => 0)) return undefined;
  const levels: string[][] = [];
  for (const { name } of part.terminals.toSorted((a, b) => potential(b.name) - potential(a.name))) {
    const level = levels.at(-1);
    if (level !== undefined && potential(level[0] ?? "") === potential(name)) level.push(name);
    else levels.push([name]);
  }
  return levels.map((l) => (l.length === 1 ? (l[0] ?? "") : l));
}

/** What turns the parts of a drawing: 1 at the feed end of each, 0 at its ground end. */
export function potentialsIn(part: Part, { order }: PlaceText): readonly (readonly [string, number])[] {
  const rank = new Map((order ?? []).flatMap((level, i) => [level].flat().map((t) => [t, i] as const)));
  const last = Math.max(1, (order?.length ?? 0) - 1);
  return part.terminals.map(({ name }) => [`${part.id}.${name}`, 1 - (rank.get(name) ?? last) / last]);
}
