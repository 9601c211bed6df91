import type { ResolvedLoom } from "@loomproof/netlist";
import { pinX } from "../layout/columns.ts";
import { detached } from "../layout/detached.ts";
import type { PlacedBox, Rect } from "../layout/frame.ts";
import { type GraphPin, shownAs, type Tail } from "../layout/graph.ts";
import type { Placed } from "../layout/layout.ts";
import { symbolsOf } from "../layout/symbols-of.ts";
import { groundMark } from "../symbols/ground-point.ts";
import { NAME_PX, PIN_NAME_PX, PIN_NUMBER_PX, TITLE_AT, TITLE_GAP, TITLE_PX } from "../symbols/module.ts";
import { line, path, rect, type Stroke, text } from "../symbols/pen.ts";
import type { PartSymbol } from "../symbols/symbol.ts";
import { textWidth } from "../texts/width.ts";
import { dimInPieces, type IsDim } from "./dimmed.ts";
import { type DotItem, type Marks, PX, type Spot, type SymbolItem, type TextItem, type TextRole } from "./items.ts";
import { wireWidth } from "./wires.ts";

export interface PartItems {
  readonly symbols: readonly SymbolItem[];
  readonly texts: readonly TextItem[];
  readonly dots: readonly DotItem[];
}

type Shift = (x: number, y: number) => Spot;

/** Symbols with their terminals, numbers and names, and the ground tails that hang on them. */
export function partsOf(loom: ResolvedLoom, placed: Placed, shift: Shift, marks: Marks, isDimmed: IsDim): PartItems {
  const isDimPiece = dimInPieces(placed, isDimmed);
  const drawn = symbolsOf(
    detached(loom, (id) => placed.frame.boxes.has(id)),
    placed.potentials,
  );
  const symbols: SymbolItem[] = [];
  const texts: TextItem[] = [];
  const dots: DotItem[] = [];
  const widths = widthsAt(placed);
  for (const b of placed.frame.boxes.values()) {
    const piece = b.box.part?.id ?? b.box.title;
    const isDim: IsDim = (id) => (id === b.box.title ? isDimPiece(piece) : isDimmed(id));
    if (b.box.kind === "ground") {
      symbols.push(groundItem(b, shift, isDim));
      texts.push(groundName(b, shift, isDim));
      continue;
    }
    if (b.box.kind === "tag") {
      symbols.push(tagItem(b, shift, isDim));
      texts.push(tagText(b, shift, isDim));
      continue;
    }
    const { title } = b.box;
    symbols.push(symbolItem(b, drawn.get(piece), shift, marks, isDim));
    texts.push(...labels(b, shift, isDim));
    for (const pin of b.box.pins) {
      const x = pinX(b.box, b.x, pin.terminal);
      const y = pin.side === "top" ? b.y : b.y + b.box.h;
      dots.push({ id: `${title}.${pin.terminal}`, at: shift(x, y), kind: "terminal", dim: isDim(title) });
      if (pin.named)
        texts.push(
          pinNumber(
            b,
            pin,
            x + Math.max(0.42, (widths.get(`${title}.${pin.terminal}`) ?? 0) / 2 / PX + 0.22),
            y,
            shift,
            isDim,
          ),
        );
      if (pin.tail) {
        const aside = Math.max(0.55, (widths.get(`${title}.${pin.terminal}`) ?? 0) / 2 / PX + 0.42);
        symbols.push(tailItem(b, pin.terminal, pin.tail, x, y, shift, isDim(pin.tail.wire ?? title)));
        texts.push(...tailTexts(pin.tail, x, y, aside, shift, isDim(pin.tail.wire ?? title)));
      }
    }
  }
  return { symbols, texts, dots };
}

/** The widest wire on each terminal, px: its number stands clear of it. */
function widthsAt(placed: Placed): ReadonlyMap<string, number> {
  const widths = new Map<string, number>();
  for (const w of placed.loomWires)
    for (const { part, terminal } of [w.from, w.to]) {
      const at = `${shownAs(part)}.${terminal}`;
      widths.set(at, Math.max(widths.get(at) ?? 0, wireWidth(w.areaMm2)));
    }
  return widths;
}

function symbolItem(
  { box, x, y }: PlacedBox,
  symbol: PartSymbol | undefined,
  shift: Shift,
  marks: Marks,
  isDim: IsDim,
): SymbolItem {
  const at = shift(x, y);
  const state = marks.parts?.[box.title] ?? {};
  const strokes = box.stretches ? moduleStrokes(box) : (symbol?.strokes(state) ?? []);
  const [left, right] = box.mirrored ? [box.ink.right, box.ink.left] : [box.ink.left, box.ink.right];
  return {
    id: box.title,
    part: box.title,
    box: box.id,
    ...at,
    width: box.w * PX,
    mirrored: box.mirrored,
    strokes,
    room: { x0: at.x - left * PX, y0: at.y, x1: at.x + (box.w + right) * PX, y1: at.y + box.h * PX },
    dim: isDim(box.title),
  };
}

/** A solid box with its pin names upright and its title between them. */
function moduleStrokes({ w, h, pins, part, title, name }: PlacedBox["box"]): readonly Stroke[] {
  const names = new Map(part?.family === "module" ? part.definition.pins.map((p) => [p.pin, p.name]) : []);
  const longest = Math.max(
    0,
    ...pins.filter((p) => p.side === "top").map((p) => textWidth(names.get(p.terminal) ?? "", PIN_NAME_PX)),
  );
  const upright = (p: GraphPin): Stroke => ({
    kind: "text",
    x: p.x + 0.38,
    y: p.side === "top" ? 1.2 : h - 1.2,
    text: names.get(p.terminal) ?? "",
    size: PIN_NAME_PX,
    anchor: p.side === "top" ? "end" : "start",
    upright: true,
    role: "pin",
  });
  return [
    rect("box", 0, 0.6, w, h - 1.2),
    ...pins.flatMap((p) => [
      line("line", p.x, p.side === "top" ? 0 : h - 0.6, p.x, p.side === "top" ? 0.6 : h),
      upright(p),
    ]),
    { ...text(TITLE_AT, longest + 3.9, title, TITLE_PX, "start", true), role: "designation" },
    {
      ...text(TITLE_AT + textWidth(title, TITLE_PX, true) + TITLE_GAP, longest + 3.9, name, NAME_PX, "start"),
      role: "name",
    },
  ];
}

/** Designation and name at the right of a symbol; modules carry theirs inside. */
function labels({ box, x, y }: PlacedBox, shift: Shift, isDim: IsDim): readonly TextItem[] {
  if (box.stretches) return [];
  const ink = box.mirrored ? box.ink.left : box.ink.right;
  const left = x + box.w + ink + 0.4;
  const middle = y + box.h / 2;
  const dim = isDim(box.title);
  const first = textItem(
    `${box.title} designation`,
    "designation",
    box.title,
    shift(left, middle - (box.name === "" ? -0.4 : 0.2)),
    13,
    { bold: true, dim },
  );
  return box.name === ""
    ? [first]
    : [first, textItem(`${box.title} name`, "name", box.name, shift(left, middle + 1.1), 11, { dim })];
}

function pinNumber({ box }: PlacedBox, pin: GraphPin, x: number, y: number, shift: Shift, isDim: IsDim): TextItem {
  const at = shift(x, pin.side === "top" ? y + 0.55 : y + 0.2);
  return textItem(`${box.title}.${pin.terminal}`, "pin", pin.terminal, at, PIN_NUMBER_PX, { dim: isDim(box.title) });
}

function groundItem({ box, x, y }: PlacedBox, shift: Shift, isDim: IsDim): SymbolItem {
  const at = shift(x, y);
  const pin = box.pins[0]?.x ?? 2;
  const dim = isDim(box.title) && isDim(box.id.split("@")[0] ?? "");
  return {
    id: box.id,
    part: box.title,
    box: box.id,
    ...at,
    width: box.w * PX,
    mirrored: false,
    strokes: [line("line", pin, 0, pin, 0.6), ...groundMark(pin, 0.6)],
    room: { x0: at.x + (pin - 1) * PX, y0: at.y, x1: at.x + (pin + 1) * PX, y1: at.y + 1.7 * PX },
    dim,
  };
}

const TAG_PX = 10.5;

/** A flag where a wire goes on in another zone: its point at the wire, the other end of the wire in words. */
function tagItem({ box, x, y }: PlacedBox, shift: Shift, isDim: IsDim): SymbolItem {
  const at = shift(x, y);
  const pin = box.pins[0];
  const [tip, near, far] = pin?.side === "bottom" ? [box.h, box.h - 0.7, 0] : [0, 0.7, box.h];
  const middle = pin?.x ?? box.w / 2;
  return {
    id: `${box.id} tag`,
    part: undefined,
    box: box.id,
    ...at,
    width: box.w * PX,
    mirrored: false,
    strokes: [path("body", `M${middle} ${tip}L${middle + 0.9} ${near}H${box.w}V${far}H0V${near}H${middle - 0.9}Z`)],
    room: { x0: at.x, y0: at.y, x1: at.x + box.w * PX, y1: at.y + box.h * PX },
    dim: isDim(box.name),
  };
}

function tagText({ box, x, y }: PlacedBox, shift: Shift, isDim: IsDim): TextItem {
  const words = shift(x + box.w / 2, y + (box.pins[0]?.side === "bottom" ? 1.03 : box.h - 0.27));
  return textItem(`${box.id} name`, "link", box.title, words, TAG_PX, { anchor: "middle", dim: isDim(box.name) });
}

function groundName({ box, x, y }: PlacedBox, shift: Shift, isDim: IsDim): TextItem {
  const at = shift(x + (box.pins[0]?.x ?? 2), y + 3);
  return textItem(`${box.id} name`, "ground", box.title, at, 10.5, {
    anchor: "middle",
    dim: isDim(box.id.split("@")[0] ?? ""),
  });
}

function tailItem(
  { box }: PlacedBox,
  terminal: string,
  tail: Tail,
  x: number,
  y: number,
  shift: Shift,
  dim: boolean,
): SymbolItem {
  const at = shift(x - 1, y + tail.length);
  return {
    id: `${box.title}.${terminal} ground`,
    part: tail.ground,
    box: box.id,
    ...at,
    width: 2 * PX,
    mirrored: false,
    // A case needs no wire: a plain line stands for the metal.
    strokes: tail.wire === undefined ? [line("line", 1, -tail.length, 1, 0), ...groundMark(1, 0)] : groundMark(1, 0),
    room: { x0: at.x, y0: at.y, x1: at.x + 2 * PX, y1: at.y + 1.1 * PX },
    dim,
  };
}

/** Number and ground point of a tail; the number stands clear of the wire by `aside` units. */
const tailTexts = (
  tail: Tail,
  x: number,
  y: number,
  aside: number,
  shift: Shift,
  dim: boolean,
): readonly TextItem[] => [
  textItem(
    `${tail.wire ?? "case"} number`,
    tail.wire === undefined ? "name" : "wire",
    tail.wire ?? "case",
    shift(x - aside, y + tail.length - 0.3),
    10.5,
    { bold: tail.wire !== undefined, upright: true, dim },
  ),
  textItem(`${tail.wire ?? "case"} ground`, "ground", tail.ground, shift(x, y + tail.length + 2.3), 10.5, {
    anchor: "middle",
    dim,
  }),
];

interface TextLook {
  readonly bold?: boolean;
  readonly anchor?: TextItem["anchor"];
  readonly upright?: boolean;
  readonly dim?: boolean;
}

/** A text with the room it takes. */
export function textItem(
  id: string,
  role: TextRole,
  words: string,
  at: Spot,
  size: number,
  look: TextLook = {},
): TextItem {
  const { bold = false, anchor = "start", upright = false, dim = false } = look;
  const width = textWidth(words, size, bold) * PX;
  const [ascent, descent] = [size * 0.76, size * 0.22];
  const start = anchor === "start" ? 0 : anchor === "middle" ? -width / 2 : -width;
  const room: Rect = upright
    ? { x0: at.x - ascent, x1: at.x + descent, y0: at.y - start - width, y1: at.y - start }
    : { x0: at.x + start, x1: at.x + start + width, y0: at.y - ascent, y1: at.y + descent };
  return { id, role, text: words, ...at, size, bold, anchor, upright, dim, room };
}
