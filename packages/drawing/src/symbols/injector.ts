import type { PartWith } from "@loomproof/netlist";
import { line, path, rect } from "./pen.ts";
import { column, type PartSymbol, type Potential } from "./symbol.ts";

export const injector = (_part: PartWith<"injector">, potential: Potential): PartSymbol =>
  column(
    ["1", "2"],
    2,
    4,
    ({ isOn }) => [
      line("line", 2, 0, 2, 1.7),
      rect(isOn ? "live" : "body", 0.8, 1.7, 2.4, 2.6),
      line("line", 0.8, 4.3, 3.2, 1.7),
      line("line", 2, 4.3, 2, 6),
      path("line", "M3.2 3H3.8V4.9"),
      path("solid", "M3.45 4.7L4.15 4.7L3.8 5.5Z"),
    ],
    potential,
    { named: true, right: 0.3 },
  );
