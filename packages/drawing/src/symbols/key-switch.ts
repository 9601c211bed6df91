import type { PartWith } from "@loomproof/netlist";
import { circle, line } from "./pen.ts";
import { switchSymbol } from "./switching.ts";
import type { PartSymbol, Potential } from "./symbol.ts";

export const keySwitch = (part: PartWith<"key-switch">, potential: Potential): PartSymbol =>
  switchSymbol(
    {
      joins: part.values.joins,
      positions: part.values.positions ?? Object.keys(part.values.joins),
      // The bow and the bit of a key.
      mark: (x, y) => [
        circle("body", x - 0.7, y, 0.7),
        line("line", x, y, x + 1.6, y),
        line("line", x + 0.9, y, x + 0.9, y + 0.5),
        line("line", x + 1.4, y, x + 1.4, y + 0.5),
      ],
    },
    potential,
  );
