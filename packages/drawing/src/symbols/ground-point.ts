import type { PartWith } from "@loomproof/netlist";
import { ground, line, type Stroke } from "./pen.ts";
import type { PartSymbol } from "./symbol.ts";

/** The mark of a ground point at (x, y): drawn wherever a wire goes to it. */
export const groundMark = (x: number, y: number): readonly Stroke[] => ground(x, y);

/** A ground point that stands by itself. */
export const groundPoint = (_part: PartWith<"ground-point">): PartSymbol => ({
  w: 4,
  h: 3,
  left: 0,
  right: 0,
  mirrors: false,
  stretches: false,
  pins: [{ terminal: "1", x: 2, side: "top", named: false }],
  strokes: () => [line("line", 2, 0, 2, 1), ...groundMark(2, 1)],
});
