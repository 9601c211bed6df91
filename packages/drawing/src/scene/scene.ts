import { naturalOrder, type ResolvedLoom } from "@loomproof/netlist";
import type { Rect } from "../layout/frame.ts";
import { shownAs } from "../layout/graph.ts";
import type { Placed } from "../layout/layout.ts";
import { textWidth } from "../texts/width.ts";
import {
  type BarItem,
  type MarkItem,
  type Marks,
  PX,
  type Scene,
  type Spot,
  type SymbolItem,
  type ZoneItem,
} from "./items.ts";
import { labelWires, overlaps } from "./labels.ts";
import { partsOf, textItem } from "./parts.ts";
import { shownTerminal, wiresOf } from "./wires.ts";

const MARGIN = 60;
const TITLE_HEIGHT = 50;
const TITLE_PX = 14;
/** A tall drawing still stands on a sheet: width by height, at least. */
const NARROWEST = 0.75;
const ZONE_PX = 13;
/** Room for the name of a bar, which may stand left of it; units. */
const BAR_NAME = 10;

export function scene(loom: ResolvedLoom, placed: Placed, marks: Marks = {}): Scene {
  const isDim = (id: string) => marks.path !== undefined && !marks.path.includes(id);
  const origin = originOf(placed, loom.title);
  const shift = (x: number, y: number): Spot => ({ x: x * PX - origin.x, y: y * PX - origin.y });
  const parts = partsOf(loom, placed, shift, marks, isDim);
  const wires = wiresOf(placed, shift, marks, isDim);
  const bars = [...placed.frame.bars.values()].map((b): BarItem => {
    const at = shift(b.x0, b.y);
    const id = shownAs(b.id);
    const others = [...placed.frame.bars.keys()].filter((other) => other !== b.id && shownAs(other) === id);
    const alsoIn = others.map((other) => other.slice(id.length + 1)).sort(naturalOrder);
    return { id, alsoIn, x0: at.x, x1: shift(b.x1, b.y).x, y: at.y, dim: isDim(id) };
  });
  const dots = [...parts.dots, ...wires.dots];
  const zones = zonesOf(placed, shift);
  const names = zones.map(({ id, room }) =>
    textItem(`${id} zone`, "zone", id, { x: room.x0 + 10, y: room.y0 + 20 }, ZONE_PX, { bold: true }),
  );
  const fixed = { ...parts, texts: [...names, ...parts.texts] };
  const texts = [...fixed.texts, ...labelWires(loom, placed, wires.wires, bars, dots, fixed, isDim)];
  return {
    title: loom.title,
    width: origin.width,
    height: origin.height,
    zones,
    symbols: parts.symbols,
    bars,
    wires: wires.wires,
    dots,
    texts,
    marks: [
      ...voltMarks(placed, shift, marks, [...parts.symbols.map((p) => p.room), ...texts.map((t) => t.room)]),
      ...ringMark(parts.symbols, marks),
    ],
  };
}

const zonesOf = ({ zones }: Placed, shift: (x: number, y: number) => Spot): readonly ZoneItem[] =>
  zones.map(({ name, room }) => {
    const [a, b] = [shift(room.x0, room.y0), shift(room.x1, room.y1)];
    return { id: name, room: { x0: a.x, y0: a.y, x1: b.x, y1: b.y } };
  });

/** The drawing's corner, so that all of it stands inside a margin on a sheet that also holds its title. */
function originOf({ frame, routed, zones }: Placed, title: string) {
  const rooms = [...[...frame.boxes.values()].map((b) => b.room), ...zones.map((z) => z.room)];
  const points = [...routed.wires.values()].flat();
  const bars = [...frame.bars.values()];
  const xs = [
    ...rooms.flatMap((r) => [r.x0, r.x1]),
    ...points.map((p) => p.x),
    ...bars.flatMap((b) => [b.x0 - BAR_NAME, b.x1]),
  ];
  const ys = [...rooms.flatMap((r) => [r.y0, r.y1]), ...points.map((p) => p.y), ...bars.map((b) => b.y)];
  const [x0, y0, x1, y1] = [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  const height = Math.ceil((y1 - y0) * PX + 2 * MARGIN + TITLE_HEIGHT);
  const needed = Math.ceil((x1 - x0) * PX + 2 * MARGIN);
  const width = Math.max(
    needed,
    Math.round(height * NARROWEST),
    Math.ceil(textWidth(title, TITLE_PX, true) * PX) + MARGIN,
  );
  return {
    x: Math.floor(x0) * PX - MARGIN - Math.floor((width - needed) / 2 / PX) * PX,
    y: Math.floor(y0) * PX - MARGIN,
    width,
    height,
  };
}

const TAG_HEIGHT = 16;
const tagWidth = (text: string): number => text.length * 6.6 + 12;

/** Volt tags beside their terminals, where they cover nothing; over something only if there is no such place. */
function voltMarks(
  placed: Placed,
  shift: (x: number, y: number) => Spot,
  { volts = [] }: Marks,
  rooms: readonly Rect[],
): readonly MarkItem[] {
  const taken = [...rooms];
  return volts.flatMap(({ at, text, sleeve }): MarkItem[] => {
    const lead = placed.routed.leads.find((l) => shownTerminal(l.terminal) === at);
    if (lead === undefined) return [];
    const spot = shift(lead.to.x, lead.to.y);
    const width = tagWidth(text);
    const places = [12, 24, 40, 56].flatMap((d) => [
      { x: spot.x + 12, y: spot.y - d },
      { x: spot.x + 12, y: spot.y + d - TAG_HEIGHT },
      { x: spot.x - 12 - width, y: spot.y - d },
      { x: spot.x - 12 - width, y: spot.y + d - TAG_HEIGHT },
    ]);
    const room = (p: Spot): Rect => ({ x0: p.x - 2, x1: p.x + width + 2, y0: p.y - 2, y1: p.y + TAG_HEIGHT + 2 });
    const place = places.find((p) => !taken.some((r) => overlaps(r, room(p)))) ?? places[0];
    if (place === undefined) return [];
    taken.push(room(place));
    return [{ kind: "volts", at: place, text, sleeve, radius: 0, width }];
  });
}

function ringMark(symbols: readonly SymbolItem[], { ring }: Marks): readonly MarkItem[] {
  const symbol = symbols.find((s) => s.id === ring);
  if (symbol === undefined) return [];
  // The ring goes round the coil of a relay, or the middle of anything else.
  const isWide = symbol.width >= 80;
  const x = symbol.mirrored ? symbol.x + symbol.width - 20 : symbol.x + (isWide ? 20 : symbol.width / 2);
  return [
    {
      kind: "ring",
      at: { x, y: (symbol.room.y0 + symbol.room.y1) / 2 },
      text: "",
      sleeve: undefined,
      radius: 24,
      width: 0,
    },
  ];
}
