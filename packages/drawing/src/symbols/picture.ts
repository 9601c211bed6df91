import type { Part } from "@loomproof/netlist";
import type { GroupInk } from "../paint/ink.ts";
import { symbolInk } from "../paint/symbols.ts";
import { THEMES, type ThemeName } from "../paint/theme.ts";
import { PX } from "../scene/items.ts";
import { symbolOf } from "./index.ts";
import { circle, line, rect, type Stroke, text } from "./pen.ts";

/** The symbol of one part by itself, in px at 100 %. Ink begins at the corner of the picture. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly ink: GroupInk;
}

interface Drawn {
  readonly w: number;
  readonly h: number;
  readonly left: number;
  readonly right: number;
  readonly strokes: readonly Stroke[];
}

/** A symbol as it stands on the shelf: at rest, feed above, without numbers. */
export function pictureOf(part: Part, theme: ThemeName): Picture {
  const { w, h, left, right, strokes } = drawnAlone(part);
  const width = (left + w + right) * PX;
  const room = { x0: 0, y0: 0, x1: width, y1: h * PX };
  const whose = { id: part.id, part: part.id, box: part.id };
  const item = { ...whose, x: left * PX, y: 0, width: w * PX, mirrored: false, strokes, room, dim: false };
  return { width, height: h * PX, ink: symbolInk(THEMES[theme], item, true) };
}

/** Two kinds have no strokes of their own: layout draws a splice as a bar, and a box around the pins of a module. */
function drawnAlone(part: Part): Drawn {
  if (part.family === "splice") return { w: 6, h: 4, left: 0, right: 0, strokes: BAR };
  if (part.family === "module") return { w: 8, h: 6, left: 0, right: 0, strokes: box(part.definition.kind) };
  const symbol = symbolOf(
    part,
    () => 0.5,
    () => undefined,
  );
  return { ...symbol, strokes: symbol.strokes({}) };
}

const BAR: readonly Stroke[] = [
  line("line", 1.5, 0.6, 1.5, 2),
  line("heavy", 0.5, 2, 5.5, 2),
  line("line", 4.5, 2, 4.5, 3.4),
  line("line", 3, 2, 3, 3.4),
  ...[1.5, 3, 4.5].map((x) => circle("solid", x, 2, 0.28)),
];

const PINS = [2, 4, 6];

const box = (kind: string): readonly Stroke[] => [
  rect("box", 0.2, 0.8, 7.6, 4.4),
  ...PINS.flatMap((x) => [line("line", x, 0, x, 0.8), line("line", x, 5.2, x, 6)]),
  text(4, 3.5, kind === "power-module" ? "P" : "A", 13, "middle", true),
];
