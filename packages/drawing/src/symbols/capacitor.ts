import type { PartWith } from "@loomproof/netlist";
import { line } from "./pen.ts";
import { column, type PartSymbol, type Potential } from "./symbol.ts";

export const capacitor = (_part: PartWith<"capacitor">, potential: Potential): PartSymbol =>
  column(
    ["+", "-"],
    2,
    4,
    () => [
      line("line", 2, 0, 2, 2.7),
      line("heavy", 0.9, 2.7, 3.1, 2.7),
      line("heavy", 0.9, 3.3, 3.1, 3.3),
      line("line", 2, 3.3, 2, 6),
    ],
    potential,
  );
