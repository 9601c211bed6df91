import type { PartWith } from "@loomproof/netlist";
import { circle, line } from "./pen.ts";
import { column, type PartSymbol, type Potential } from "./symbol.ts";

export function lamp(part: PartWith<"lamp">, potential: Potential): PartSymbol {
  const r = part.kind === "indicator" ? 1 : 1.6;
  const s = r * 0.7;
  return column(
    ["a", "b"],
    2,
    4,
    ({ isOn }) => [
      ...(isOn ? [circle("glow", 2, 3, r + 0.4), circle("lit", 2, 3, r)] : [circle("body", 2, 3, r)]),
      line("line", 2, 0, 2, 3 - r),
      line("line", 2, 3 + r, 2, 6),
      line("line", 2 - s, 3 - s, 2 + s, 3 + s),
      line("line", 2 + s, 3 - s, 2 - s, 3 + s),
    ],
    potential,
  );
}
