import { naturalOrder, type Pair } from "@loomproof/netlist";
import { circle, line, makeContact, rect, type Stroke, text } from "./pen.ts";
import type { PartSymbol, Potential, SymbolPin } from "./symbol.ts";

// Switches and keys: one blade where there are two terminals; else a housing with the feed on top, the switched
// terminals below, and a blade to each that the position joins.

const PITCH = 4;

type Mark = (x: number, y: number) => readonly Stroke[];

interface Switching {
  readonly joins: Readonly<Record<string, readonly Pair[]>>;
  readonly positions: readonly string[];
  /** What moves it, drawn at the left of the blade. */
  readonly mark: Mark;
  /** The same where there is a housing with more room. */
  readonly housed?: Mark;
}

export function switchSymbol({ joins, positions, mark, housed = mark }: Switching, potential: Potential): PartSymbol {
  const terminals = [...new Set(Object.values(joins).flat(2))];
  const ordered = terminals.toSorted((a, b) => potential(b) - potential(a));
  const [first, second] = ordered;
  const now = (position: string | undefined) => joins[position ?? positions[0] ?? ""] ?? [];
  if (terminals.length <= 2) {
    const pins: SymbolPin[] = [];
    if (first !== undefined) pins.push({ terminal: first, x: 3, side: "top", named: true });
    if (second !== undefined) pins.push({ terminal: second, x: 3, side: "bottom", named: true });
    return {
      w: 4,
      h: 6,
      left: 0,
      right: 0,
      mirrors: false,
      stretches: false,
      pins,
      strokes: ({ position }) => {
        const closed = now(position).length > 0;
        return [
          line("line", 3, 0, 3, 1.8),
          ...makeContact(3, 1.8, 4.2, closed),
          line("line", 3, 4.2, 3, 6),
          ...mark(closed ? 3 : 2.35, 3),
        ];
      },
    };
  }
  const poles = polesOf(joins);
  const tops = poles.flatMap((p) => feeds(joins, p, potential));
  const bottoms = poles.flatMap((p) => terminals.filter((t) => p.includes(t) && !tops.includes(t)));
  const columns = Math.max(tops.length, bottoms.length);
  const w = columns * PITCH + 4;
  const at = (i: number, count: number) => 5 + Math.round(((columns - count) * PITCH) / 2) + i * PITCH;
  const pins: SymbolPin[] = [
    ...tops.map((t, i): SymbolPin => ({ terminal: t, x: at(i, tops.length), side: "top", named: true })),
    ...bottoms.map((t, i): SymbolPin => ({ terminal: t, x: at(i, bottoms.length), side: "bottom", named: true })),
  ];
  const xOf = new Map(pins.map((p) => [p.terminal, p.x]));
  return {
    w,
    h: 8,
    left: 0,
    right: 0,
    mirrors: false,
    stretches: false,
    pins,
    strokes: ({ position }) => [
      rect("house", 0.2, 0.9, w - 0.4, 6.2),
      ...housed(2.2, 4),
      ...tops.flatMap((t) => [
        line("line", xOf.get(t) ?? 0, 0, xOf.get(t) ?? 0, 2.4),
        circle("solid", xOf.get(t) ?? 0, 2.4, 0.16),
      ]),
      ...bottoms.flatMap((t) => [
        line("line", xOf.get(t) ?? 0, 5.4, xOf.get(t) ?? 0, 8),
        circle("solid", xOf.get(t) ?? 0, 5.4, 0.16),
      ]),
      ...now(position).map(([a, b]) =>
        line("blade", xOf.get(a) ?? 0, tops.includes(a) ? 2.4 : 5.4, xOf.get(b) ?? 0, tops.includes(b) ? 2.4 : 5.4),
      ),
      text(w - 0.6, 4.4, position ?? positions[0] ?? "", 10.5, "end"),
    ],
  };
}

/** Terminals that some position joins, directly or through others, in the order in which they are named. */
export function polesOf(joins: Switching["joins"]): readonly (readonly string[])[] {
  const poles: string[][] = [];
  for (const pair of Object.values(joins).flat()) {
    const met = poles.filter((p) => pair.some((t) => p.includes(t)));
    for (const p of met) poles.splice(poles.indexOf(p), 1);
    poles.push([...new Set([...met.flat(), ...pair])]);
  }
  return poles.toSorted((p, q) => naturalOrder(p[0] ?? "", q[0] ?? ""));
}

/** Terminals of a pole drawn on top: the common ones that feed the others. At least one stays below. */
function feeds(joins: Switching["joins"], pole: readonly string[], potential: Potential): readonly string[] {
  const ordered = pole.toSorted((a, b) => potential(b) - potential(a));
  const pairs = Object.values(joins)
    .flat()
    .filter(([a]) => pole.includes(a));
  const count = (t: string) => new Set(pairs.filter((p) => p.includes(t)).flat()).size;
  const tops = ordered.filter(
    (t) =>
      pairs.every((p) => !p.includes(t) || potential(t) >= potential(p[0] === t ? p[1] : p[0]) - 1e-6) && count(t) > 2,
  );
  if (tops.length > 0 && tops.length < ordered.length) return tops;
  return ordered.slice(0, Math.max(1, Math.floor(ordered.length / 2)));
}
