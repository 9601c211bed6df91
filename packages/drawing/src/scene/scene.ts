import { naturalOrder, type ResolvedLoom } from "@loomproof/netlist";
import { shownAs } from "../layout/graph.ts";
import type { Placed } from "../layout/layout.ts";
import { textWidth } from "../texts/width.ts";
import { type BarItem, type Marks, PX, type Scene, type Spot, type ZoneItem } from "./items.ts";
import { labelWires } from "./labels.ts";
import { marksOn } from "./marks.ts";
import { partsOf, textItem } from "./parts.ts";
import { wiresOf } from "./wires.ts";

const MARGIN = 60;
/** A sheet that is begun: it has room around what stands on it, and lies still as long as everything does. */
export const BEGUN_SHEET = { width: 1040, height: 640, origin: { x: -MARGIN, y: -MARGIN } };
const TITLE_HEIGHT = 50;
const TITLE_PX = 14;
/** A tall drawing still stands on a sheet: width by height, at least. */
const NARROWEST = 0.75;
const ZONE_PX = 13;
/** Room for the name of a bar, which may stand left of it; units. */
const BAR_NAME = 10;

/** @param least px of the sheet: a drawing that is begun has room around it */
export function scene(
  loom: ResolvedLoom,
  placed: Placed,
  marks: Marks = {},
  least: { readonly width: number; readonly height: number } = { width: 0, height: 0 },
): Scene {
  const isDim = (id: string) => marks.path !== undefined && !marks.path.includes(id);
  const origin = originOf(placed, loom.title, least);
  const shift = (x: number, y: number): Spot => ({ x: x * PX - origin.x, y: y * PX - origin.y });
  const parts = partsOf(loom, placed, shift, marks, isDim);
  const wires = wiresOf(placed, shift, marks, isDim);
  const bars = [...placed.frame.bars.values()].map((b): BarItem => {
    const at = shift(b.x0, b.y);
    const id = shownAs(b.id);
    const others = [...placed.frame.bars.keys()].filter((other) => other !== b.id && shownAs(other) === id);
    const alsoIn = others.map((other) => other.slice(id.length + 1)).sort(naturalOrder);
    return { id, box: b.id, alsoIn, x0: at.x, x1: shift(b.x1, b.y).x, y: at.y, dim: isDim(id) };
  });
  const dots = [...parts.dots, ...wires.dots];
  const zones = zonesOf(placed, shift);
  const names = zones.map(({ id, room }) =>
    textItem(`${id} zone`, "zone", id, { x: room.x0 + 10, y: room.y0 + 20 }, ZONE_PX, { bold: true }),
  );
  const fixed = { ...parts, texts: [...names, ...parts.texts] };
  const texts = [...fixed.texts, ...labelWires(loom, placed, wires.wires, bars, dots, fixed, isDim)];
  const drawn = {
    title: loom.title,
    origin: { x: origin.x, y: origin.y },
    width: origin.width,
    height: origin.height,
    zones,
    symbols: parts.symbols,
    bars,
    wires: wires.wires,
    dots,
    texts,
  };
  return { ...drawn, marks: marksOn(drawn, placed, shift, marks) };
}

const zonesOf = ({ zones }: Placed, shift: (x: number, y: number) => Spot): readonly ZoneItem[] =>
  zones.map(({ name, room }) => {
    const [a, b] = [shift(room.x0, room.y0), shift(room.x1, room.y1)];
    return { id: name, room: { x0: a.x, y0: a.y, x1: b.x, y1: b.y } };
  });

/** The drawing's corner, so that all of it stands inside a margin on a sheet that also holds its title. */
function originOf(
  { frame, routed, zones }: Placed,
  title: string,
  least: { readonly width: number; readonly height: number },
) {
  const rooms = [...[...frame.boxes.values()].map((b) => b.room), ...zones.map((z) => z.room)];
  const points = [...routed.wires.values()].flat();
  const bars = [...frame.bars.values()];
  const xs = [
    ...rooms.flatMap((r) => [r.x0, r.x1]),
    ...points.map((p) => p.x),
    ...bars.flatMap((b) => [b.x0 - BAR_NAME, b.x1]),
  ];
  const ys = [...rooms.flatMap((r) => [r.y0, r.y1]), ...points.map((p) => p.y), ...bars.map((b) => b.y)];
  const [x0, y0, x1, y1] =
    xs.length === 0 ? [0, 0, 0, 0] : [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  const high = Math.ceil((y1 - y0) * PX + 2 * MARGIN + TITLE_HEIGHT);
  const height = Math.max(high, least.height);
  const needed = Math.ceil((x1 - x0) * PX + 2 * MARGIN);
  const width = Math.max(
    needed,
    least.width,
    Math.round(high * NARROWEST),
    Math.ceil(textWidth(title, TITLE_PX, true) * PX) + MARGIN,
  );
  const middle = (room: number) => Math.floor(room / 2 / PX) * PX;
  const corner = { x: Math.floor(x0) * PX - MARGIN, y: Math.floor(y0) * PX - MARGIN };
  if (least.width === 0) return { x: corner.x - middle(width - needed), y: corner.y, width, height };
  // A sheet that is drawn on lies still as long as everything stands on it.
  const isOn =
    corner.x >= -MARGIN &&
    corner.y >= -MARGIN &&
    corner.x + needed <= least.width - MARGIN &&
    corner.y + high <= least.height - MARGIN;
  return isOn ? { x: -MARGIN, y: -MARGIN, width: least.width, height: least.height } : { ...corner, width, height };
}
