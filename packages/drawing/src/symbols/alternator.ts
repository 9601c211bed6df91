import type { PartWith } from "@loomproof/netlist";
import { circle, line, rect, text } from "./pen.ts";
import type { PartSymbol } from "./symbol.ts";

export const alternator = (_part: PartWith<"alternator">): PartSymbol => ({
  w: 8,
  h: 8,
  left: 0,
  right: 0,
  mirrors: true,
  stretches: false,
  pins: [
    { terminal: "D+", x: 2, side: "top", named: true },
    { terminal: "B+", x: 6, side: "top", named: true },
    { terminal: "31", x: 4, side: "bottom", named: true },
  ],
  strokes: ({ isOn }) => [
    rect("house", 0.2, 0.9, 7.6, 6.2),
    circle(isOn ? "lit" : "body", 4, 4.2, 2),
    text(4, 4.3, "G", 12, "middle", true),
    text(4, 5.4, "3~", 10.5),
    line("line", 2, 0, 2, 1.8, 3.2, 1.8, 3.2, 2.4),
    line("line", 6, 0, 6, 1.8, 4.8, 1.8, 4.8, 2.4),
    line("line", 4, 6.2, 4, 8),
  ],
});
