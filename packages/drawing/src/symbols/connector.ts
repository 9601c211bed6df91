import { type PartWith, sidesOf } from "@loomproof/netlist";
import { line, path, rect } from "./pen.ts";
import type { PartSymbol, Potential, SymbolPin } from "./symbol.ts";

const PITCH = 4;

/** One column a cavity, the half nearer to feed on top: pin above, socket below. */
export function connector(part: PartWith<"connector">, potential: Potential): PartSymbol {
  const { cavities } = part.values;
  const columns = cavities.map((cavity, i) => {
    const [a, b] = sidesOf(cavity);
    const [top, bottom] = potential(a) < potential(b) - 1e-6 ? [b, a] : [a, b];
    return { top, bottom, x: 2 + i * PITCH };
  });
  const w = cavities.length * PITCH;
  return {
    w,
    h: 4,
    left: 0,
    right: 0,
    mirrors: false,
    stretches: false,
    pins: columns.flatMap(({ top, bottom, x }): SymbolPin[] => [
      { terminal: top, x, side: "top", named: true },
      { terminal: bottom, x, side: "bottom", named: true },
    ]),
    strokes: () => [
      line("house", 0.4, 2, w - 0.4, 2),
      ...columns.flatMap(({ x }) => [
        line("line", x, 0, x, 1.3),
        rect("solid", x - 0.2, 1.2, 0.4, 0.9),
        path("line", `M${x - 0.6} 2.1A.6 .6 0 0 0 ${x + 0.6} 2.1`),
        line("line", x, 2.7, x, 4),
      ]),
    ],
  };
}
