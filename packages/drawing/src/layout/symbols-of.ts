import { type Part, type ResolvedLoom, terminalText } from "@loomproof/netlist";
import { symbolOf } from "../symbols/index.ts";
import type { PartSymbol } from "../symbols/symbol.ts";
import type { Potentials } from "./potentials.ts";

type Side = "top" | "bottom" | undefined;
type SideOf = (part: string, terminal: string) => Side;

/** The symbol of every part that has one, turned so that feed comes from above. The same loom, the same symbols. */
export function symbolsOf(loom: ResolvedLoom, potentials: Potentials): ReadonlyMap<string, PartSymbol> {
  const potential = (t: string) => potentials.get(t) ?? 0.5;
  const symbols = new Map<string, PartSymbol>();
  const sideOf: SideOf = (part, terminal) => symbols.get(part)?.pins.find((p) => p.terminal === terminal)?.side;
  const drawn = loom.parts.filter((p) => p.family !== "ground-point" && p.family !== "splice");
  // Boxes come last, small ones first: their pins look towards what they meet, and that must be known.
  const size = (p: Part) => (p.family === "module" ? p.terminals.length : 0);
  const sizes = [...new Set(drawn.map(size))].sort((a, b) => a - b);
  for (const now of sizes)
    for (const p of drawn) {
      if (size(p) !== now) continue;
      const name = (t: string) => `${p.id}.${t}`;
      symbols.set(
        p.id,
        symbolOf(
          p,
          (t) => potential(name(t)),
          (t) => facingOf(loom, p.id, name(t), sideOf),
        ),
      );
    }
  return symbols;
}

/** A pin stands above if what it meets (through splices) faces down, below if it faces up. */
function facingOf(loom: ResolvedLoom, own: string, terminal: string, sideOf: SideOf): Side {
  const splices = new Set(loom.parts.filter((p) => p.family === "splice").map((p) => `${p.id}.1`));
  const boxes = new Set(loom.parts.filter((p) => p.family === "module" && p.id !== own).map((p) => p.id));
  const seen = new Set([terminal]);
  const open = [terminal];
  let [down, up] = [0, 0];
  for (let at = open.pop(); at !== undefined; at = open.pop())
    for (const w of loom.wires) {
      const [a, b] = [terminalText(w.from), terminalText(w.to)];
      const [other, end] = a === at ? [b, w.to] : b === at ? [a, w.from] : ["", w.from];
      if (other === "" || seen.has(other)) continue;
      seen.add(other);
      if (splices.has(other)) open.push(other);
      // A bigger box has no sides yet: it will stand above.
      const side =
        boxes.has(end.part) && sideOf(end.part, end.terminal) === undefined ? "bottom" : sideOf(end.part, end.terminal);
      if (side === "bottom") down++;
      else if (side === "top") up++;
    }
  // Whatever else hangs on a joint, a feed from above puts it over the box.
  return down > 0 ? "top" : up > 0 ? "bottom" : undefined;
}
