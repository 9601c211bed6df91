import type { Scene } from "../scene/items.ts";
import { readable } from "../scene/readable.ts";
import { fieldLetters, framed, titled } from "./frame.ts";
import type { GroupInk, Ink } from "./ink.ts";
import { symbolInk } from "./symbols.ts";
import { markInk, textInk } from "./texts.ts";
import { THEMES, type ThemeName } from "./theme.ts";
import { barInk, dotInk, haloInk, hopInk, sleeveInk, wireInk } from "./wires.ts";

/** Everything of a scene that looks the same at every zoom, layer over layer in this order. */
export interface Figures {
  /** Paper and frame. */
  readonly sheet: readonly Ink[];
  /** Borders of zones, sleeves, bars, wires, hops. */
  readonly wires: readonly Ink[];
  /** One group a symbol, those that are lit last. Ids occur again where a part is drawn in several zones. */
  readonly parts: readonly { readonly id: string; readonly dim: boolean; readonly ink: GroupInk }[];
  readonly dots: readonly Ink[];
}

/** @param withWords whether words that stand inside symbols are drawn with them; the screen draws them with its texts */
export function figures(scene: Scene, name: ThemeName, withWords: boolean): Figures {
  const theme = THEMES[name];
  const wires = litLast(scene.wires);
  return {
    sheet: framed(scene, theme),
    wires: [
      ...scene.zones.map(({ room: { x0, y0, x1, y1 } }): Ink => {
        const size = { width: x1 - x0, height: y1 - y0 };
        return { kind: "rect", x: x0, y: y0, ...size, fill: "none", stroke: theme.line, line: 1 };
      }),
      ...wires.flatMap((w) => sleeveInk(theme, w)),
      ...scene.bars.map((b) => barInk(theme, b)),
      ...wires.flatMap((w) => wireInk(theme, w)),
      ...wires.flatMap((w) => hopInk(theme, w)),
    ],
    parts: litLast(scene.symbols).map((s) => ({
      id: s.id,
      dim: s.dim,
      ink: symbolInk(theme, s, withWords),
    })),
    dots: scene.dots.map((d) => dotInk(theme, d)),
  };
}

/** Title, texts and marks as on paper. */
export function writing(scene: Scene, name: ThemeName, title: string, foot: string): readonly Ink[] {
  const theme = THEMES[name];
  return [
    ...titled(scene, theme, title, foot),
    ...fieldLetters(scene, theme),
    ...scene.texts.map((t) => textInk(theme, t)),
    ...scene.marks.map((m) => markInk(theme, m)),
  ];
}

/** Texts and marks on a screen, words inside symbols with them: below 100 % larger and fewer, so that they can be read. */
export function writingAt(scene: Scene, name: ThemeName, zoom: number): readonly Ink[] {
  const theme = THEMES[name];
  const { texts, marks, larger } = readable(scene, zoom);
  return [
    ...fieldLetters(scene, theme, larger),
    ...texts.map((t) => textInk(theme, t, larger > 1)),
    ...marks.map((m) => markInk(theme, m, larger)),
  ];
}

/** An edge of one colour round wires, wherever they are drawn; below 100 % as wide on the screen as at 100 %. */
export const haloes = (scene: Scene, wires: readonly string[], colour: string, zoom: number): readonly Ink[] =>
  scene.wires.filter((w) => wires.includes(w.id)).map((w) => haloInk(w, colour, Math.max(1, 1 / zoom)));

const litLast = <T extends { readonly dim: boolean }>(list: readonly T[]): readonly T[] => [
  ...list.filter((i) => i.dim),
  ...list.filter((i) => !i.dim),
];
