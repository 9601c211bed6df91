import type { PartWith } from "@loomproof/netlist";
import { line, diode as triangle } from "./pen.ts";
import { column, type PartSymbol, type Potential } from "./symbol.ts";

export const diode = (part: PartWith<"diode">, potential: Potential): PartSymbol =>
  column(
    ["A", "K"],
    2,
    4,
    (_, flipped) => {
      const bar = flipped ? 2.5 : 3.5;
      return [
        line("line", 2, 0, 2, 6),
        ...triangle(2, 3, flipped ? "up" : "down"),
        ...(part.kind === "zener"
          ? [line("line", 1.4, bar, 1.4, bar - 0.4), line("line", 2.6, bar, 2.6, bar + 0.4)]
          : []),
      ];
    },
    potential,
  );
