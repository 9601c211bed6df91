import type { PartWith } from "@loomproof/netlist";
import { circle, line, rect } from "./pen.ts";
import type { PartSymbol } from "./symbol.ts";

/** No terminal: a block with a crank, standing by itself. */
export const engine = (_part: PartWith<"engine">): PartSymbol => ({
  w: 6,
  h: 6,
  left: 0,
  right: 0,
  mirrors: false,
  stretches: false,
  pins: [],
  strokes: () => [
    rect("box", 1, 1, 4, 2.6),
    ...[2, 3, 4].map((x) => rect("body", x - 0.35, 1.5, 0.7, 1)),
    circle("body", 3, 4.4, 0.9),
    line("line", 3, 2.5, 3, 4.4, 3.6, 4),
  ],
});
