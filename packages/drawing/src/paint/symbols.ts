import { PX, type SymbolItem } from "../scene/items.ts";
import type { PathStroke, StrokeRole, TextStroke } from "../symbols/pen.ts";
import { inkColour } from "./colours.ts";
import type { GroupInk, Ink, TextInk } from "./ink.ts";
import { mixed, type Theme } from "./theme.ts";

const LINE: { readonly [R in StrokeRole]: { readonly width: number; readonly dash?: readonly number[] } } = {
  line: { width: 1.5 },
  heavy: { width: 2.4 },
  blade: { width: 2.8 },
  link: { width: 1.2, dash: [3, 3] },
  house: { width: 1, dash: [7, 3, 1.5, 3] },
  box: { width: 2 },
  body: { width: 1.5 },
  solid: { width: 0 },
  lit: { width: 1.5 },
  live: { width: 1.5 },
  glow: { width: 0 },
};

/** A symbol as one group. Its own letters belong to it; words that a zoom may leave out are drawn with the other texts. */
export function symbolInk(theme: Theme, s: SymbolItem, withWords: boolean): GroupInk {
  const paths = s.strokes.filter((k) => k.kind === "path").map((k) => strokeInk(theme, k, s.dim));
  const texts = s.strokes
    .filter((k) => k.kind === "text")
    .filter((k) => withWords || k.role === undefined)
    .map((k) => textInk(theme, s, k));
  const mirrored = s.mirrored ? { mirrored: s.width } : {};
  return {
    kind: "group",
    x: s.x,
    y: s.y,
    scale: 1,
    ink: [{ kind: "group", x: 0, y: 0, scale: PX, ...mirrored, ink: paths }, ...texts],
  };
}

function strokeInk(theme: Theme, s: PathStroke, dim: boolean): Ink {
  const ink = inkColour(theme, theme.ink, dim);
  const { width, dash } = LINE[s.role];
  const fill = fillOf(theme, s.role, dim);
  if (width === 0) return { kind: "path", d: s.d, fill };
  return {
    kind: "path",
    d: s.d,
    fill,
    stroke: s.role === "house" ? inkColour(theme, theme.line, dim) : ink,
    width: width / PX,
    roundCap: true,
    roundJoin: true,
    ...(dash === undefined ? {} : { dash: dash.map((v) => v / PX) }),
  };
}

function fillOf(theme: Theme, role: StrokeRole, dim: boolean): string {
  switch (role) {
    case "solid":
      return inkColour(theme, theme.ink, dim);
    case "lit":
      return inkColour(theme, theme.lit, dim);
    case "live":
      return inkColour(theme, theme.feed, dim);
    case "glow":
      return inkColour(theme, theme.glow, dim);
    case "body":
      return theme.sheet;
    case "box":
      return theme.raise;
    case "house":
      return mixed(theme.raise, theme.sheet, 0.55);
    default:
      return "none";
  }
}

/** Texts of a mirrored symbol are put in the mirror's place but stay readable. */
function textInk(theme: Theme, s: SymbolItem, k: TextStroke): TextInk {
  return {
    kind: "text",
    x: (s.mirrored ? s.width / PX - k.x : k.x) * PX,
    y: k.y * PX,
    size: k.size,
    anchor: k.anchor,
    upright: k.upright ?? false,
    fill: inkColour(theme, theme.ink, s.dim),
    words: [{ text: k.text, weight: k.bold ? 650 : 400 }],
  };
}
