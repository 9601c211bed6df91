import type { ResolvedLoom } from "@loomproof/netlist";
import type { Rect } from "../layout/frame.ts";
import type { Placed } from "../layout/layout.ts";
import { textWidth } from "../texts/width.ts";
import { type BarItem, type DotItem, PX, type Spot, type TextItem, type WireItem } from "./items.ts";
import { type PartItems, textItem } from "./parts.ts";
import { overlaps } from "./rooms.ts";

const SIZE = 10.5;
const CLEAR = 1.5;
/** A sleeve may stand round any wire; its label keeps clear of it. */
const SLEEVE = 5.5;

/**
 * Number, size and colour of each wire along its longest run: above it, or left of an upright one reading upwards. It
 * loses the colour, then the size, before it loses its place; the number stays as long as there is any room at all.
 */
export function labelWires(
  loom: ResolvedLoom,
  placed: Placed,
  wires: readonly WireItem[],
  bars: readonly BarItem[],
  dots: readonly DotItem[],
  parts: PartItems,
  isDim: (id: string) => boolean,
): readonly TextItem[] {
  const taken: Rect[] = [
    ...parts.symbols.map((s) => s.room),
    ...parts.texts.map((t) => t.room),
    ...dots.map((d) => around(d.at, 5)),
    ...bars.map((b) => ({ x0: b.x0 - 4, x1: b.x1 + 4, y0: b.y - 4, y1: b.y + 4 })),
    ...wires.flatMap((w) => w.points.slice(1).map((b, i) => along(w.points[i] as Spot, b, w.width / 2 + CLEAR))),
  ];
  const texts: TextItem[] = [];
  const put = (candidates: Iterable<TextItem>): boolean => {
    for (const t of candidates) {
      if (taken.some((r) => overlaps(r, t.room))) continue;
      texts.push(t);
      taken.push(t.room);
      return true;
    }
    return false;
  };
  for (const bar of bars) put(barLabels(loom, bar, isDim));
  const tails = new Set([...placed.frame.boxes.values()].flatMap((b) => b.box.pins.flatMap((p) => p.tail?.wire ?? [])));
  const byId = new Map(loom.wires.map((w) => [w.id, w]));
  const drawn = wires
    .filter((w) => !tails.has(w.id))
    .toSorted((a, b) => longest(a) - longest(b) || (a.id < b.id ? -1 : 1));
  for (const w of drawn) {
    const wire = byId.get(w.id);
    const size = wire?.areaMm2 === undefined ? "" : ` ${Number(wire.areaMm2.toPrecision(3))}`;
    const colour = wire?.colour === undefined ? "" : ` ${wire.colour.replace("/", "")}`;
    const words = [...new Set([`${w.id}${size}${colour}`, `${w.id}${size}`, w.id])];
    const isNear = (t: TextItem) => numberDistance(w, t.room) <= NUMBER_REACH;
    const done =
      words.some((text) => put(only(wireLabels(w, text, isDim), isNear))) || put(only(nearLabels(w, isDim), isNear));
    if (!done && !words.some((text) => put(wireLabels(w, text, isDim)))) put(nearLabels(w, isDim));
  }
  return texts;
}

/** The number of a wire stands at most this far from one of its ends, px, so that nobody has to follow it to read it. */
export const NUMBER_REACH = 150;

/** From a text to the nearer end of its wire, px. */
export function numberDistance(w: WireItem, room: Rect): number {
  const to = ({ x, y }: Spot) =>
    Math.hypot(Math.max(room.x0 - x, 0, x - room.x1), Math.max(room.y0 - y, 0, y - room.y1));
  const [first, last] = [w.points[0], w.points.at(-1)];
  return first === undefined || last === undefined ? 0 : Math.min(to(first), to(last));
}

function* only(candidates: Iterable<TextItem>, test: (t: TextItem) => boolean): Iterable<TextItem> {
  for (const t of candidates) if (test(t)) yield t;
}

const longest = (w: WireItem): number => Math.max(...w.points.slice(1).map((b, i) => distance(w.points[i] as Spot, b)));
const distance = (a: Spot, b: Spot): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
const around = (p: Spot, r: number): Rect => ({ x0: p.x - r, x1: p.x + r, y0: p.y - r, y1: p.y + r });
const along = (a: Spot, b: Spot, r: number): Rect => ({
  x0: Math.min(a.x, b.x) - r,
  x1: Math.max(a.x, b.x) + r,
  y0: Math.min(a.y, b.y) - r,
  y1: Math.max(a.y, b.y) + r,
});

const SHARES = [0.5, 0.25, 0.75, 0.05, 0.95, 0.4, 0.6, 0.15, 0.85];
const END_STEP = 12;
const END_STEPS = 13;

function* wireLabels(w: WireItem, text: string, isDim: (id: string) => boolean): Iterable<TextItem> {
  const width = textWidth(text, SIZE, true) * PX;
  const look = { bold: true, dim: isDim(w.id) };
  const segments = w.points
    .slice(1)
    .map((b, i) => ({ a: w.points[i] as Spot, b }))
    .toSorted((p, q) => distance(q.a, q.b) - distance(p.a, p.b));
  const off = w.width / 2 + SLEEVE + CLEAR;
  for (const { a, b } of segments) {
    const room = distance(a, b) - width;
    if (room < 4) continue;
    // Then step by step from either end, so that long wires bear theirs near where they begin.
    const steps = Array.from({ length: END_STEPS }, (_, i) => (i * END_STEP) / room).filter((s) => s < 1);
    for (const share of [...SHARES, ...steps.flatMap((s) => [s, 1 - s])]) {
      if (a.y === b.y) {
        const x = Math.min(a.x, b.x) + 2 + share * (room - 4);
        yield textItem(`${w.id} number`, "wire", text, { x, y: a.y - off - SIZE * 0.22 }, SIZE, look);
        yield textItem(`${w.id} number`, "wire", text, { x, y: a.y + off + SIZE * 0.76 }, SIZE, look);
      } else {
        const y = Math.max(a.y, b.y) - 2 - share * (room - 4);
        yield textItem(`${w.id} number`, "wire", text, { x: a.x - off - SIZE * 0.22, y }, SIZE, {
          ...look,
          upright: true,
        });
        yield textItem(`${w.id} number`, "wire", text, { x: a.x + off + SIZE * 0.76, y }, SIZE, {
          ...look,
          upright: true,
        });
      }
    }
  }
  // Short runs: the number beside the wire, level, wherever there is room.
  for (const { a, b } of segments)
    for (const share of [0.5, 0.2, 0.8]) {
      const p = { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
      yield textItem(`${w.id} number`, "wire", text, { x: p.x + off + 1, y: p.y + SIZE * 0.3 }, SIZE, look);
      yield textItem(`${w.id} number`, "wire", text, { x: p.x - off - 1 - width, y: p.y + SIZE * 0.3 }, SIZE, look);
    }
}

const NEAREST = [10, 14, 18, 22, 26];

/** Where all along a wire is taken: the number level, as near to it as there is room. */
function* nearLabels(w: WireItem, isDim: (id: string) => boolean): Iterable<TextItem> {
  const width = textWidth(w.id, SIZE, true) * PX;
  const look = { bold: true, dim: isDim(w.id) };
  const at = (x: number, y: number) => textItem(`${w.id} number`, "wire", w.id, { x, y }, SIZE, look);
  for (const d of NEAREST)
    for (const [i, b] of w.points.slice(1).entries()) {
      const a = w.points[i] as Spot;
      const steps = Math.max(1, Math.round(distance(a, b) / PX));
      for (let k = 0; k <= steps; k++) {
        const p = { x: a.x + ((b.x - a.x) * k) / steps, y: a.y + ((b.y - a.y) * k) / steps };
        yield at(p.x + d, p.y + SIZE * 0.3);
        yield at(p.x - d - width, p.y + SIZE * 0.3);
        yield at(p.x - width / 2, p.y - d);
        yield at(p.x - width / 2, p.y + d + SIZE * 0.76);
      }
    }
}

const BAR_PX = 11;
/** So far may a name stand out beside its bar, px: zones keep room for it. */
const BESIDE_BAR = 112;

/** Designation and name of a joint, and where else it is shown; as much of it as there is room for. */
function* barLabels(loom: ResolvedLoom, bar: BarItem, isDim: (id: string) => boolean): Iterable<TextItem> {
  const label = loom.parts.find((p) => p.id === bar.id)?.label ?? "";
  const also = bar.alsoIn.length === 0 ? "" : ` also in ${bar.alsoIn.join(", ")}`;
  const look = { bold: true, dim: isDim(bar.id) };
  const named = label === "" ? bar.id : `${bar.id} ${label}`;
  const at = (text: string, x: number, y: number) => textItem(`${bar.id} name`, "bar", text, { x, y }, BAR_PX, look);
  for (const text of new Set([`${named}${also}`, `${bar.id}${also}`, named, bar.id])) {
    const width = textWidth(text, BAR_PX, true) * PX;
    if (also === "" || width <= BESIDE_BAR) {
      yield at(text, bar.x0 - width - 8, bar.y + 4);
      yield at(text, bar.x1 + 8, bar.y + 4);
    }
    for (let x = bar.x0 + 6; x + width < bar.x1; x += 12) {
      yield at(text, x, bar.y - 7);
      yield at(text, x, bar.y + 14);
    }
  }
  // No room at all along it: the designation at a corner, as near as can be.
  const width = textWidth(bar.id, BAR_PX, true) * PX;
  for (const d of NEAREST)
    for (const x of [bar.x0 - width - d, bar.x1 + d])
      for (const y of [bar.y - d, bar.y + d + BAR_PX * 0.76]) yield at(bar.id, x, y);
}
