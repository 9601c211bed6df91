import type { PartWith } from "@loomproof/netlist";
import { line, text } from "./pen.ts";
import type { PartSymbol } from "./symbol.ts";

export const battery = (_part: PartWith<"battery">): PartSymbol => ({
  w: 6,
  h: 6,
  left: 0,
  right: 0,
  mirrors: false,
  stretches: false,
  pins: [
    { terminal: "+", x: 3, side: "top", named: false },
    { terminal: "-", x: 3, side: "bottom", named: false },
  ],
  strokes: () => [
    line("line", 3, 0, 3, 2),
    line("line", 1, 2, 5, 2),
    line("heavy", 2, 2.75, 4, 2.75),
    line("line", 1, 3.5, 5, 3.5),
    line("heavy", 2, 4.25, 4, 4.25),
    line("line", 3, 4.25, 3, 6),
    text(1.5, 1.4, "+", 12, "middle", true),
    text(1.5, 5.6, "\u2212", 12, "middle", true),
  ],
});
