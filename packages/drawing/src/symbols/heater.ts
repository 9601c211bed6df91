import type { PartWith } from "@loomproof/netlist";
import { line, rect } from "./pen.ts";
import { column, type PartSymbol, type Potential } from "./symbol.ts";

export const heater = (_part: PartWith<"heater">, potential: Potential): PartSymbol =>
  column(
    ["a", "b"],
    2,
    4,
    ({ isOn }) => [
      rect(isOn ? "lit" : "body", 1.2, 1.2, 1.6, 3.6),
      ...[1.9, 2.6, 3.3, 4].map((y) => line("line", 1.2, y, 2.8, y)),
      line("line", 2, 0, 2, 1.2),
      line("line", 2, 4.8, 2, 6),
    ],
    potential,
  );
