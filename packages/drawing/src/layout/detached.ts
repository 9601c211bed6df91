import { type Part, type PartWith, sidesOf, standardJoins, type TerminalRef, type Wire } from "@loomproof/netlist";
import { polesOf } from "../symbols/switching.ts";

// A plug between two looms is wired in both directions: feeds go through it one way, what comes back the other; and one
// lever may move contacts in circuits that have nothing to do with each other. In one piece such a part would tie all of
// them to one place. So it is drawn cavity by cavity and pole by pole, each in line with its wire, all under one
// designation.

interface Lists {
  readonly parts: readonly Part[];
  readonly wires: readonly Wire[];
}

/**
 * A loom with each wired cavity of a connector and each pole of a switch as a part of its own.
 *
 * @param isWhole parts that stay in one piece: those that a hand has put on the sheet
 */
export function detached<L extends Lists>(loom: L, isWhole: (part: string) => boolean = () => false): L {
  const wired = new Set(loom.wires.flatMap(({ from, to }) => [from, to].map((e) => `${e.part}.${e.terminal}`)));
  const pieceOf = new Map<string, string>();
  const parts = loom.parts.flatMap((part): readonly Part[] => {
    if (isWhole(part.id)) return [part];
    const used = piecesOf(part).filter((p) => p.terminals.some((t) => wired.has(`${part.id}.${t.name}`)));
    if (used.length === 0) return [part];
    for (const piece of used) for (const t of piece.terminals) pieceOf.set(`${part.id}.${t.name}`, piece.id);
    // Of many cavities the first bears the name.
    return used.map((p, i) => (p.family === "connector" && i > 0 ? { ...p, label: "" } : p));
  });
  const end = (e: TerminalRef): TerminalRef => ({ ...e, part: pieceOf.get(`${e.part}.${e.terminal}`) ?? e.part });
  return { ...loom, parts, wires: loom.wires.map((w) => ({ ...w, from: end(w.from), to: end(w.to) })) };
}

function piecesOf(part: Part): readonly Part[] {
  if (part.family === "connector") return part.values.cavities.map((c) => cavityOf(part, c));
  if (part.family !== "switch") return [];
  const joins = part.values.joins ?? standardJoins(part.kind);
  const poles = polesOf(joins);
  return poles.length < 2 ? [] : poles.map((pole) => poleOf(part, joins, pole));
}

/** What is left of a part at some of its terminals. */
const pieceAt = <P extends Part>(part: P, names: readonly string[]) => ({
  ...part,
  id: `${part.id}~${names[0]}`,
  terminals: part.terminals.filter((t) => names.includes(t.name)),
});

const cavityOf = (part: PartWith<"connector">, cavity: string): PartWith<"connector"> => ({
  ...pieceAt(part, sidesOf(cavity)),
  values: { ...part.values, cavities: [cavity] },
});

function poleOf(
  part: PartWith<"switch">,
  joins: ReturnType<typeof standardJoins>,
  pole: readonly string[],
): PartWith<"switch"> {
  const own = Object.entries(joins).map(([position, pairs]) => [position, pairs.filter(([a]) => pole.includes(a))]);
  return {
    ...pieceAt(part, pole),
    values: { ...part.values, positions: part.values.positions ?? Object.keys(joins), joins: Object.fromEntries(own) },
  };
}
