import type { PartWith } from "@loomproof/netlist";
import { circle, line, path, rect } from "./pen.ts";
import { column, type PartSymbol, type Potential } from "./symbol.ts";

export function protector(part: PartWith<"protector">, potential: Potential): PartSymbol {
  const nut = (y: number) => path("body", `M.45 ${y}L.72 ${y - 0.48}H1.28L1.55 ${y}L1.28 ${y + 0.48}H.72Z`);
  return column(
    ["a", "b"],
    1,
    2,
    () => {
      if (part.kind === "link")
        return [
          line("line", 1, 0, 1, 1.5),
          line("line", 1, 4.5, 1, 6),
          path("line", "M1 1.5C2 2.4 0 3.4 1 4.5"),
          circle("solid", 1, 1.5, 0.2),
          circle("solid", 1, 4.5, 0.2),
        ];
      const fuse = [rect("body", 0.4, 1.5, 1.2, 3), line("line", 1, 0, 1, 6)];
      return part.kind === "bolt-down" ? [...fuse, nut(0.9), nut(5.1)] : fuse;
    },
    potential,
  );
}
