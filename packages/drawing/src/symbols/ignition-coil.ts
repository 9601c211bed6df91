import type { PartWith } from "@loomproof/netlist";
import { line, path, rect } from "./pen.ts";
import type { PartSymbol, SymbolPin } from "./symbol.ts";

// Two windings about a core, the spark at the side. With a driver of its own the signal comes from above.

const winding = (x: number, way: 1 | -1): string => {
  const bow = `c${1.1 * way} 0 ${1.1 * way} .8 0 .8`;
  return `M${x} 2.4${bow}${bow}${bow}${bow}`;
};

export function ignitionCoil(part: PartWith<"ignition-coil">): PartSymbol {
  const hasDriver = part.kind === "own-driver";
  const pins: readonly SymbolPin[] = hasDriver
    ? [
        { terminal: "15", x: 3, side: "top", named: true },
        { terminal: "1", x: 7, side: "top", named: true },
        { terminal: "31", x: 3, side: "bottom", named: true },
      ]
    : [
        { terminal: "15", x: 3, side: "top", named: true },
        { terminal: "1", x: 3, side: "bottom", named: true },
        { terminal: "4", x: 6, side: "bottom", named: true },
      ];
  return {
    w: 8,
    h: 8,
    left: 0,
    right: 0,
    mirrors: true,
    stretches: false,
    pins,
    strokes: () => [
      rect("house", 0.7, 0.9, 6.9, 6.2),
      line("line", 3, 0, 3, 2.4),
      path("line", winding(3, 1)),
      line("line", 3, 5.6, 3, 8),
      line("line", 4.3, 2.2, 4.3, 5.8),
      line("line", 4.7, 2.2, 4.7, 5.8),
      path("line", winding(6, -1)),
      ...(hasDriver
        ? [line("line", 7, 0, 7, 6.6, 3, 6.6)]
        : [line("line", 6, 2.4, 6, 1.5, 3, 1.5), line("line", 6, 5.6, 6, 8)]),
    ],
  };
}
