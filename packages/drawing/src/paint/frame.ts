import type { Scene, Spot } from "../scene/items.ts";
import type { Ink, TextInk } from "./ink.ts";
import type { Theme } from "./theme.ts";

// The sheet with its frame and fields (after ISO 5457, from memory).

const EDGE = 14;
const COLUMNS = 8;
const ROWS = "ABCDE";

/** The field of the sheet that a spot stands in, such as B4. */
export function fieldOf({ width, height }: Scene, { x, y }: Spot): string {
  const step = (v: number, whole: number, count: number) =>
    Math.min(count - 1, Math.max(0, Math.floor(((v - EDGE) / (whole - 2 * EDGE)) * count)));
  return `${ROWS[step(y, height, ROWS.length)]}${step(x, width, COLUMNS) + 1}`;
}

const plain = (
  text: string,
  x: number,
  y: number,
  size: number,
  fill: string,
  look: Partial<TextInk> = {},
): TextInk => ({
  kind: "text",
  x,
  y,
  size,
  fill,
  anchor: "start",
  upright: false,
  words: [{ text, weight: 400 }],
  ...look,
});

/** Larger than this the letters of the fields would stand in the drawing. */
const MOST_LARGER = 3.6;

/** Numbers and letters of the fields, along the upper and the left edge; `larger` against a zoom. */
export function fieldLetters({ width, height }: Scene, theme: Theme, larger = 1): readonly Ink[] {
  if (larger > MOST_LARGER) return [];
  const letter = (text: string, x: number, y: number) =>
    plain(text, x, y, 10.5 * larger, theme.ink2, { anchor: "middle" });
  const share = (whole: number, count: number, i: number) => EDGE + ((whole - 2 * EDGE) * (i + 0.5)) / count;
  return [
    ...Array.from({ length: COLUMNS }, (_, i) =>
      letter(String(i + 1), share(width, COLUMNS, i), EDGE + 4 + 8 * larger),
    ),
    ...[...ROWS].map((row, i) => letter(row, EDGE + 3 + 6 * larger, share(height, ROWS.length, i) + 4 * larger)),
  ];
}

/** The title and a line at the foot. */
export const titled = ({ width, height }: Scene, theme: Theme, title: string, foot: string): readonly Ink[] => [
  plain(title, width - EDGE - 12, height - EDGE - 12, 14, theme.ink, {
    anchor: "end",
    words: [{ text: title, weight: 650 }],
  }),
  ...(foot === "" ? [] : [plain(foot, EDGE + 20, height - EDGE - 12, 11, theme.ink2)]),
];

/** Paper, and the frame with the ticks of its fields. */
export function framed({ width, height }: Scene, theme: Theme): readonly Ink[] {
  const [x0, y0, x1, y1] = [EDGE, EDGE, width - EDGE, height - EDGE];
  const ink: Ink[] = [
    { kind: "rect", x: 0, y: 0, width, height, fill: theme.sheet },
    { kind: "rect", x: x0, y: y0, width: x1 - x0, height: y1 - y0, fill: "none", stroke: theme.line, line: 1 },
  ];
  const tick = (d: string): Ink => ({ kind: "path", d, stroke: theme.line, width: 1 });
  for (let i = 1; i < COLUMNS; i++) {
    const x = x0 + ((x1 - x0) * i) / COLUMNS;
    ink.push(tick(`M${at(x)} ${y0}v5M${at(x)} ${y1}v-5`));
  }
  for (let i = 1; i < ROWS.length; i++) {
    const y = y0 + ((y1 - y0) * i) / ROWS.length;
    ink.push(tick(`M${x0} ${at(y)}h5M${x1} ${at(y)}h-5`));
  }
  return ink;
}

const at = (v: number): string => String(Math.round(v * 100) / 100);
