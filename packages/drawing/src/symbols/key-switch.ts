import type { PartWith } from "@loomproof/netlist";
import { circle, line, type Stroke } from "./pen.ts";
import { switchSymbol } from "./switching.ts";
import type { PartSymbol, Potential } from "./symbol.ts";

/** The bow and the bit of a key; the bow ends at `x`. */
const key = (x: number, y: number, size: number): readonly Stroke[] => [
  circle("body", x - 0.7 * size, y, 0.7 * size),
  line("line", x, y, x + 1.6 * size, y),
  line("line", x + 0.9 * size, y, x + 0.9 * size, y + 0.5 * size),
  line("line", x + 1.4 * size, y, x + 1.4 * size, y + 0.5 * size),
];

export const keySwitch = (part: PartWith<"key-switch">, potential: Potential): PartSymbol =>
  switchSymbol(
    {
      joins: part.values.joins,
      positions: part.values.positions ?? Object.keys(part.values.joins),
      mark: (x, y) => [...key(x - 1.3, y, 0.7), line("link", x, y, x - 0.18, y)],
      housed: (x, y) => key(x, y, 1),
    },
    potential,
  );
