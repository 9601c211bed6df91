import type { ResolvedLoom } from "../loom/resolve.ts";
import { terminalText } from "../loom/terminal-ref.ts";

/** Terminals that would be one node if every wire were ideal. */
export interface Net {
  /** Its first terminal in natural order. */
  readonly id: string;
  readonly terminals: readonly string[];
  readonly wires: readonly string[];
}

/** The nets of a loom: every terminal is in one, alone if nothing is wired to it. In the order of the loom's parts. */
export function nets(loom: ResolvedLoom): readonly Net[] {
  const order = loom.parts.flatMap((p) => p.terminals.map((t) => `${p.id}.${t.name}`));
  const parent = new Map(order.map((t) => [t, t]));
  const rank = new Map(order.map((t, i) => [t, i]));
  const root = (t: string): string => {
    let r = t;
    for (let up = parent.get(r); up !== undefined && up !== r; up = parent.get(r)) r = up;
    return r;
  };
  for (const w of loom.wires) {
    const [a, b] = [root(terminalText(w.from)), root(terminalText(w.to))];
    // The earlier terminal stays the root, so that a net is named the same in every run.
    if ((rank.get(a) ?? 0) <= (rank.get(b) ?? 0)) parent.set(b, a);
    else parent.set(a, b);
  }
  const terminals = new Map<string, string[]>();
  for (const t of order) terminals.set(root(t), [...(terminals.get(root(t)) ?? []), t]);
  const wires = new Map<string, string[]>();
  for (const w of loom.wires) {
    const net = root(terminalText(w.from));
    wires.set(net, [...(wires.get(net) ?? []), w.id]);
  }
  return [...terminals].map(([id, list]) => ({ id, terminals: list, wires: wires.get(id) ?? [] }));
}
