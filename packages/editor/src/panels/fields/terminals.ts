import { asWritten, type Loom, type ResolvedLoom } from "@loomproof/netlist";
import { withWords, wordsOf } from "./typed-words.ts";

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
  const words = wordsOf(typed);
  const begins = ({ text }: TerminalChoice) => text.toLowerCase().startsWith(words[0] ?? "");
  return withWords(choices, words, ({ text, says }) => `${text} ${says}`, begins).slice(0, MOST);
}
