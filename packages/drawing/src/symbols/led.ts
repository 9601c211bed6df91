import type { PartWith } from "@loomproof/netlist";
import { circle, diode, line, path } from "./pen.ts";
import { column, type PartSymbol, type Potential } from "./symbol.ts";

export const led = (_part: PartWith<"led">, potential: Potential): PartSymbol =>
  column(
    ["+", "-"],
    2,
    4,
    ({ isOn }, flipped) => [
      ...(isOn ? [circle("glow", 2, 3, 1.9), circle("lit", 2, 3, 1.5)] : [circle("body", 2, 3, 1.5)]),
      line("line", 2, 0, 2, 6),
      ...diode(2, 3, flipped ? "up" : "down"),
      path("line", "M3.4 1.9L4.2 1.1M3.7 1.1H4.2V1.6"),
    ],
    potential,
    { right: 0.3 },
  );
