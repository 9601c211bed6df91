import type { Rect } from "../layout/frame.ts";
import type { Scene, Spot } from "../scene/items.ts";
import type { Ink, PathInk } from "./ink.ts";
import { symbolInk } from "./symbols.ts";
import { THEMES, type Theme, type ThemeName } from "./theme.ts";

// What a hand is about to do, in pencil: it is never printed.

/** What is to be drawn over a scene, all of it in px of the sheet. */
export interface Pencil {
  /** Parts with a frame round them, wires with a ring at each end. */
  readonly picked?: readonly string[];
  /** Terminals that may take a wire. */
  readonly open?: readonly Spot[];
  /** Lines by hand: a wire that is being drawn, wires of a part that is being moved. */
  readonly lines?: readonly { readonly from: Spot; readonly to: Spot }[];
  /** What a terminal is called, beside it. */
  readonly label?: { readonly at: Spot; readonly text: string };
  /** Where a splice would come. */
  readonly dot?: Spot;
  /** A box that is being moved, by how much. */
  readonly moving?: { readonly box: string; readonly dx: number; readonly dy: number };
  /** Ink that hangs on the pointer: its middle, and its size. */
  readonly carried?: { readonly ink: Ink; readonly at: Spot; readonly width: number; readonly height: number };
}

const ROUND = 7;
const CORNER = 6;
const OPEN = 7;

/** @param zoom of the screen: below 100 % the pencil is thicker against it, so that it can be seen */
export function pencilInk(scene: Scene, name: ThemeName, pencil: Pencil, zoom: number): readonly Ink[] {
  const theme = THEMES[name];
  const thick = Math.max(1, 1 / zoom);
  const line = (from: Spot, to: Spot): PathInk => ({
    kind: "path",
    d: `M${from.x} ${from.y}L${to.x} ${to.y}`,
    stroke: theme.pencil,
    width: 2 * thick,
    roundCap: true,
  });
  const ring = (at: Spot, radius: number): Ink => ({
    kind: "circle",
    ...at,
    radius: radius * thick,
    stroke: theme.pencil,
    line: 2 * thick,
  });
  return [
    ...(pencil.picked ?? []).flatMap((id) => [
      ...roomsOf(scene, id).flatMap((room) => frameInk(theme, room, thick)),
      ...endsOf(scene, id).map((at) => ring(at, OPEN)),
    ]),
    ...(pencil.open ?? []).map((at) => ring(at, OPEN)),
    ...(pencil.lines ?? []).map(({ from, to }) => line(from, to)),
    ...(pencil.label === undefined ? [] : [labelInk(theme, pencil.label, thick)]),
    ...(pencil.dot === undefined
      ? []
      : [
          {
            kind: "circle",
            ...pencil.dot,
            radius: 5 * thick,
            fill: theme.pencil,
            stroke: theme.sheet,
            line: 1,
          } as const,
        ]),
    ...(pencil.moving === undefined ? [] : ghostInk(scene, theme, pencil.moving, thick)),
    ...(pencil.carried === undefined ? [] : carriedInk(theme, pencil.carried, thick)),
  ];
}

const LABEL = 12.5;

const labelInk = (theme: Theme, { at, text }: NonNullable<Pencil["label"]>, thick: number): Ink => ({
  kind: "text",
  x: at.x + (OPEN + 5) * thick,
  y: at.y - 5 * thick,
  size: LABEL * thick,
  anchor: "start",
  upright: false,
  fill: theme.pencil,
  words: [{ text, weight: 650 }],
  halo: { colour: theme.sheet, width: 4 * thick },
});

/** Everything that shows a part: its symbols, or the bar of a splice. */
function roomsOf(scene: Scene, part: string): readonly Rect[] {
  const bars = scene.bars.filter((b) => b.id === part).map((b) => ({ x0: b.x0, x1: b.x1, y0: b.y, y1: b.y }));
  return [...scene.symbols.filter((s) => s.part === part).map((s) => s.room), ...bars];
}

const endsOf = (scene: Scene, wire: string): readonly Spot[] =>
  scene.wires
    .filter((w) => w.id === wire)
    .flatMap(({ points }) => [points[0], points.at(-1)].filter((p) => p !== undefined));

/** A dashed frame with open squares at its corners. */
function frameInk(theme: Theme, room: Rect, thick: number): readonly Ink[] {
  const [x0, y0, x1, y1] = [room.x0 - ROUND, room.y0 - ROUND, room.x1 + ROUND, room.y1 + ROUND];
  const side = CORNER * thick;
  const corners = [x0, x1].flatMap((x) => [y0, y1].map((y) => ({ x, y })));
  return [
    {
      kind: "path",
      d: `M${x0} ${y0}H${x1}V${y1}H${x0}Z`,
      fill: "none",
      stroke: theme.pencil,
      width: 1.5 * thick,
      dash: [5 * thick, 4 * thick],
    },
    ...corners.map(
      ({ x, y }): Ink => ({
        kind: "rect",
        x: x - side / 2,
        y: y - side / 2,
        width: side,
        height: side,
        fill: theme.sheet,
        stroke: theme.pencil,
        line: 1.5 * thick,
      }),
    ),
  ];
}

/** A moved box in pencil where it would come to stand. */
function ghostInk(
  scene: Scene,
  theme: Theme,
  { box, dx, dy }: NonNullable<Pencil["moving"]>,
  thick: number,
): readonly Ink[] {
  const drawn: Theme = { ...theme, ink: theme.pencil, line: theme.pencil };
  const move = (r: Rect): Rect => ({ x0: r.x0 + dx, x1: r.x1 + dx, y0: r.y0 + dy, y1: r.y1 + dy });
  const symbols = scene.symbols.filter((s) => s.box === box);
  const bars = scene.bars.filter((b) => b.box === box).map((b) => ({ x0: b.x0, x1: b.x1, y0: b.y, y1: b.y }));
  return [
    ...symbols.map((s) => symbolInk(drawn, { ...s, x: s.x + dx, y: s.y + dy }, true)),
    ...[...symbols.map((s) => s.room), ...bars].flatMap((r) => frameInk(theme, move(r), thick)),
  ];
}

function carriedInk(
  theme: Theme,
  { ink, at, width, height }: NonNullable<Pencil["carried"]>,
  thick: number,
): readonly Ink[] {
  const [x, y] = [at.x - width / 2, at.y - height / 2];
  return [
    { kind: "group", x, y, scale: 1, ink: [ink] },
    ...frameInk(theme, { x0: x, y0: y, x1: x + width, y1: y + height }, thick),
  ];
}
