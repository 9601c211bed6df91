import { asWritten, type Loom, type ResolvedLoom } from "@loomproof/netlist";

/** A terminal that can be wired to. */
export interface TerminalChoice {
  /** As the file writes it: "K1.86", "XS1". */
  readonly text: string;
  /** What it is: "coil, Main relay". */
  readonly says: string;
}

/** Every terminal of the loom. */
export const terminalChoices = (loom: Loom, resolved: ResolvedLoom): readonly TerminalChoice[] =>
  resolved.parts.flatMap((p) =>
    p.terminals.map((t) => ({
      text: asWritten(loom, `${p.id}.${t.name}`),
      says: [t.says, p.label].filter((w) => w !== "").join(", "),
    })),
  );

const MOST = 40;

/** Those in which every typed word occurs; the ones that begin with what was typed come first. */
export function matching(choices: readonly TerminalChoice[], typed: string): readonly TerminalChoice[] {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean);
  const fits = choices.filter(({ text, says }) => {
    const all = `${text} ${says}`.toLowerCase();
    return words.every((w) => all.includes(w));
  });
  const begins = (c: TerminalChoice) => c.text.toLowerCase().startsWith(words[0] ?? "");
  return [...fits.filter(begins), ...fits.filter((c) => !begins(c))].slice(0, MOST);
}
