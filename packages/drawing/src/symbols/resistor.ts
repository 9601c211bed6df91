import type { PartWith } from "@loomproof/netlist";
import { line, rect } from "./pen.ts";
import { column, type PartSymbol, type Potential } from "./symbol.ts";

export const resistor = (_part: PartWith<"resistor">, potential: Potential): PartSymbol =>
  column(
    ["a", "b"],
    2,
    4,
    () => [rect("body", 1.5, 1.6, 1, 2.8), line("line", 2, 0, 2, 1.6), line("line", 2, 4.4, 2, 6)],
    potential,
  );
