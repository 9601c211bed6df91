import type { MarkItem, TextItem } from "../scene/items.ts";
import { TAG_HEIGHT } from "../scene/marks.ts";
import { inkColour, sleeveColours } from "./colours.ts";
import type { Ink, TextInk } from "./ink.ts";
import type { Theme } from "./theme.ts";

const HALO = 2.4;

/** @param onDrawing whether the text may stand on something, as texts do that are drawn larger against a zoom */
export function textInk(theme: Theme, t: TextItem, onDrawing = false): TextInk {
  const colour = inkColour(theme, t.role === "designation" || t.bold ? theme.ink : theme.ink2, t.dim);
  const halo = t.role === "pin" || onDrawing ? { halo: { colour: theme.sheet, width: HALO } } : {};
  const { x, y, size, anchor, upright } = t;
  return { kind: "text", x, y, size, anchor, upright, fill: colour, words: wordsOf(t), ...halo };
}

/** Of a wire the number is bold, size and colour plain. */
function wordsOf({ text, role, bold }: TextItem): TextInk["words"] {
  if (role !== "wire") return [{ text, weight: bold ? 700 : 400 }];
  const [number = "", ...rest] = text.split(" ");
  return [
    { text: number, weight: 700 },
    ...(rest.length === 0 ? [] : [{ text: ` ${rest.join(" ")}`, weight: 400 as const }]),
  ];
}

/** A ring, a volt tag or a step, `larger` against a zoom; a tag keeps the corner that is next to its terminal. */
export function markInk(theme: Theme, m: MarkItem, larger = 1): Ink {
  if (m.kind === "ring")
    return { kind: "circle", ...m.at, radius: m.radius, fill: "none", stroke: theme.danger, line: 3 * larger };
  if (m.kind === "step")
    return {
      kind: "group",
      ...m.at,
      scale: larger,
      ink: [
        { kind: "circle", x: 0, y: 0, radius: m.radius, fill: theme.ink, stroke: theme.sheet, line: 1.5 },
        markText(m.text, 0, 3.8, theme.sheet),
      ],
    };
  const edge = m.sleeve === undefined ? theme.ink : sleeveColours(theme, m.sleeve).edge;
  return {
    kind: "group",
    x: m.at.x,
    y: m.at.y + (TAG_HEIGHT * (1 - larger)) / 2,
    scale: larger,
    ink: [
      {
        kind: "rect",
        x: 0,
        y: 0,
        width: m.width,
        height: TAG_HEIGHT,
        corner: 3,
        fill: theme.raise,
        stroke: edge,
        line: 1.5,
      },
      markText(m.text, m.width / 2, 12, theme.ink),
    ],
  };
}

const markText = (text: string, x: number, y: number, fill: string): TextInk => ({
  kind: "text",
  x,
  y,
  size: 11,
  anchor: "middle",
  upright: false,
  fill,
  words: [{ text, weight: 700 }],
});
