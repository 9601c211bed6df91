import { type PartWith, standardJoins } from "@loomproof/netlist";
import { line, path, rect, type Stroke, text } from "./pen.ts";
import { switchSymbol } from "./switching.ts";
import type { PartSymbol, Potential } from "./symbol.ts";

type Mark = (x: number, y: number) => readonly Stroke[];

const lettered =
  (letter: string): Mark =>
  (x, y) => [
    line("link", x, y, x - 1, y),
    rect("body", x - 2.2, y - 0.6, 1.2, 1.2),
    text(x - 1.6, y + 0.36, letter, 10.5),
  ];
const hand: Mark = (x, y) => [line("link", x, y, x - 1.4, y), line("heavy", x - 1.4, y - 0.6, x - 1.4, y + 0.6)];
const push: Mark = (x, y) => [
  line("link", x, y, x - 1.4, y),
  line("line", x - 1, y - 0.6, x - 1.4, y - 0.6, x - 1.4, y + 0.6, x - 1, y + 0.6),
];

/** What moves each kind of switch. */
const MARKS: Readonly<Record<string, Mark>> = {
  push,
  "push-break": push,
  pressure: lettered("p"),
  temperature: lettered("t"),
  seat: (x, y) => [
    line("link", x, y, x - 1.1, y),
    path("heavy", `M${x - 2.3} ${y - 0.8}V${y + 0.6}H${x - 1.1}V${y + 0.1}`),
  ],
  gear: (x, y) => [
    line("link", x, y, x - 0.9, y),
    path(
      "line",
      `M${x - 2.2} ${y - 0.6}V${y + 0.6}M${x - 1.6} ${y - 0.6}V${y + 0.6}M${x - 1} ${y - 0.6}V${y}M${x - 2.2} ${y}H${x - 1}`,
    ),
  ],
};

export function switchFamily(part: PartWith<"switch">, potential: Potential): PartSymbol {
  const joins = part.values.joins ?? standardJoins(part.kind);
  return switchSymbol(
    { joins, positions: part.values.positions ?? Object.keys(joins), mark: MARKS[part.kind] ?? hand },
    potential,
  );
}
