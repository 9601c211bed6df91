import type { BarItem, DotItem, WireItem } from "../scene/items.ts";
import { inkColour, insulation, sleeveColours } from "./colours.ts";
import type { Ink, PathInk } from "./ink.ts";
import { hopArc, wirePath } from "./path-text.ts";
import type { Theme } from "./theme.ts";

const SLEEVE = 11;
const HALO = 7;

/** The state of a wire, round it: solid, with cross ticks, as two lines, or dotted. */
export function sleeveInk(theme: Theme, wire: WireItem): readonly Ink[] {
  if (wire.sleeve === undefined || wire.dim) return [];
  const { fill, edge } = sleeveColours(theme, wire.sleeve);
  const d = wirePath(wire);
  const wide = wire.width + (wire.sleeve === "feed" || wire.sleeve === "between" ? SLEEVE : SLEEVE - 1.5);
  const line = (stroke: string, width: number, dash?: readonly number[]) => strokeOf(d, stroke, width, dash);
  if (wire.sleeve === "float") return [line(edge, wide, [1.5, 4.5]), line(fill, wide - 3)];
  const ticks = wire.sleeve === "between" ? [line(edge, wide, [1, 7.6])] : [];
  return [line(edge, wide), line(fill, wide - 2.4), ...ticks];
}

/** Outline, core and tracer. */
export function wireInk(theme: Theme, wire: WireItem): readonly Ink[] {
  const d = wirePath(wire);
  const c = (colour: string) => inkColour(theme, colour, wire.dim);
  const tracer =
    wire.tracer === undefined
      ? []
      : [strokeOf(d, c(insulation(wire.tracer)), Math.max(1.4, wire.width * 0.42), [9, 5])];
  return [
    strokeOf(d, c(theme.wireEdge), wire.width + 1.8),
    strokeOf(d, c(insulation(wire.base)), wire.width),
    ...tracer,
  ];
}

/** The gap under each jump, and the jump again on top of it. */
export const hopInk = (theme: Theme, wire: WireItem): readonly Ink[] =>
  wire.hops.flatMap((hop) => {
    const [a, b] = [wire.points[hop.segment], wire.points[hop.segment + 1]];
    const d = hopArc(hop.at, hop.over, a?.y === b?.y);
    const arc = (stroke: string, width: number): PathInk => ({ kind: "path", d, fill: "none", stroke, width });
    return [
      arc(theme.sheet, wire.width + 5),
      arc(inkColour(theme, theme.wireEdge, wire.dim), wire.width + 1.8),
      arc(inkColour(theme, insulation(wire.base), wire.dim), wire.width),
    ];
  });

/** Wider than any sleeve and drawn under it all, so that state and insulation stay as they are. */
export const haloInk = (wire: WireItem, colour: string, larger: number): Ink =>
  strokeOf(wirePath(wire), colour, wire.width + SLEEVE + HALO * larger);

export const barInk = (theme: Theme, { x0, x1, y, dim }: BarItem): Ink => ({
  kind: "path",
  d: `M${short(x0)} ${short(y)}H${short(x1)}`,
  stroke: inkColour(theme, theme.ink, dim),
  width: 3,
  roundCap: true,
});

export function dotInk(theme: Theme, { at, kind, dim }: DotItem): Ink {
  const ink = inkColour(theme, theme.ink, dim);
  return kind === "joint"
    ? { kind: "circle", ...at, radius: 4, fill: ink, stroke: theme.sheet, line: 1 }
    : { kind: "circle", ...at, radius: 2.2, fill: theme.sheet, stroke: ink, line: 1.2 };
}

function strokeOf(d: string, stroke: string, width: number, dash?: readonly number[]): PathInk {
  return { kind: "path", d, fill: "none", stroke, width, roundJoin: true, ...(dash === undefined ? {} : { dash }) };
}

const short = (v: number): number => Math.round(v * 100) / 100;
