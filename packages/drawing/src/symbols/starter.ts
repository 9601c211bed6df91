import type { PartWith } from "@loomproof/netlist";
import { circle, line, makeContact, rect, text } from "./pen.ts";
import type { PartSymbol } from "./symbol.ts";

export const starter = (_part: PartWith<"starter">): PartSymbol => ({
  w: 10,
  h: 10,
  left: 0,
  right: 0,
  mirrors: true,
  stretches: false,
  pins: [
    { terminal: "50", x: 2, side: "top", named: true },
    { terminal: "30", x: 7, side: "top", named: true },
    { terminal: "31", x: 7, side: "bottom", named: true },
  ],
  strokes: ({ isIn = false, isOn = false }) => [
    rect("house", 0.2, 0.9, 9.6, 8.2),
    // Pull-in winding returns through the motor, hold-in winding to the body.
    line("line", 2, 0, 2, 1.9, 2, 2.6),
    line("line", 2, 1.9, 4, 1.9, 4, 2.6),
    rect(isIn ? "live" : "body", 1.3, 2.6, 1.4, 2.4),
    rect(isIn ? "live" : "body", 3.3, 2.6, 1.4, 2.4),
    line("line", 2, 5, 2, 8.4, 7, 8.4),
    line("line", 4, 5, 4, 5.3, 7, 5.3),
    line("link", 4.7, 3.4, isIn ? 7 : 6.4, 3.4),
    line("heavy", 7, 0, 7, 2.2),
    ...makeContact(7, 2.2, 4.8, isIn),
    line("heavy", 7, 4.8, 7, 5.4),
    circle(isOn ? "lit" : "body", 7, 6.8, 1.4),
    text(7, 7.22, "M", 12, "middle", true),
    line("heavy", 7, 8.2, 7, 10),
  ],
});
