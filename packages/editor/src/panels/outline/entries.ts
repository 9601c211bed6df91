import { asWritten, families, type Loom, type ResolvedLoom } from "@loomproof/netlist";
import type { Picked } from "../../session/editing.ts";
import { withWords, wordsOf } from "../fields/typed-words.ts";

/** One line of the outline. */
export interface Entry {
  readonly picked: Picked;
  readonly name: string;
  readonly says: string;
  /** What it is joined to: "30 to XS1 by W7". */
  readonly joined: string;
}

/** Everything on the sheet in words: parts with what is wired where, then wires from end to end. */
export function entriesOf(loom: Loom, resolved: ResolvedLoom): readonly Entry[] {
  const ends = new Map<string, string[]>();
  const put = (at: string, says: string) => ends.set(at, [...(ends.get(at) ?? []), says]);
  for (const { id, from, to } of resolved.wires) {
    const [a, b] = [asWritten(loom, `${from.part}.${from.terminal}`), asWritten(loom, `${to.part}.${to.terminal}`)];
    put(a, `${b} by ${id}`);
    put(b, `${a} by ${id}`);
  }
  const parts = resolved.parts.map((p): Entry => {
    const { title, kinds } = families[p.family];
    const kind = kinds.length > 1 && p.kind !== kinds[0] ? `, ${p.kind}` : "";
    const isJoint = p.terminals.length === 1;
    const joined = p.terminals.map(({ name }) => {
      const there = ends.get(asWritten(loom, `${p.id}.${name}`)) ?? [];
      if (isJoint) return there.length === 0 ? "open" : there.join(", ");
      return `${name} ${there.length === 0 ? "open" : `to ${there.join(", ")}`}`;
    });
    return {
      picked: { kind: "part", id: p.id },
      name: p.id,
      says: [p.label, `${title}${kind}`].filter((w) => w !== "").join(" · "),
      joined: joined.join("; "),
    };
  });
  const texts = new Map(loom.wires.map((w) => [w.id, w]));
  const wires = resolved.wires.map((w): Entry => {
    const text = texts.get(w.id);
    return {
      picked: { kind: "wire", id: w.id },
      name: w.id,
      says: [text?.size, text?.colour].filter((v) => v !== undefined).join(" "),
      joined: `${text?.from} to ${text?.to}`,
    };
  });
  return [...parts, ...wires];
}

/** Those in which every typed word occurs; what is called so comes first. */
export function entriesWith(entries: readonly Entry[], typed: string): readonly Entry[] {
  const words = wordsOf(typed);
  const textOf = ({ picked, name, says, joined }: Entry) => `${picked.kind} ${name} ${says} ${joined}`;
  return withWords(entries, words, textOf, ({ name }) => words.includes(name.toLowerCase()));
}
