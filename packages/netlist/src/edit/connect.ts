import type { Loom, WireText } from "../loom/schema.ts";
import { readTerminal, terminalText } from "../loom/terminal-ref.ts";
import { nextWireNumber } from "./designation.ts";
import { addWire } from "./wires.ts";

// New wires between terminals. Terminals are text as in the file: "K1.86", "XS1".

/** The same terminal, however it is written: "XS1" and "XS1.1". */
export const isSameTerminal = (a: string, b: string): boolean =>
  terminalText(readTerminal(a)) === terminalText(readTerminal(b));

/** Why two terminals cannot be wired to each other, in a sentence; undefined when they can. */
export function whyNotConnect(loom: Loom, a: string, b: string): string | undefined {
  if (isSameTerminal(a, b)) return `Both ends are ${a}; a wire needs two.`;
  const joins = ({ from, to }: WireText) => isSameTerminal(from, a) && isSameTerminal(to, b);
  const already = loom.wires.find((w) => joins(w) || joins({ ...w, from: w.to, to: w.from }));
  return already === undefined ? undefined : `${already.id} already goes from ${already.from} to ${already.to}.`;
}

/**
 * A new wire from one terminal to another. Size and colour are those of the wires already there, if they agree; the
 * length is not given. Ask `whyNotConnect` first.
 */
export function connect(loom: Loom, a: string, b: string): { readonly loom: Loom; readonly wire: string } {
  const why = whyNotConnect(loom, a, b);
  if (why !== undefined) throw new Error(`connect: ${why}`);
  const id = nextWireNumber(loom);
  const size = agreed(loom, "size", [a, b]);
  const colour = agreed(loom, "colour", [a, b]);
  const wire: WireText = {
    id,
    from: asWritten(loom, a),
    to: asWritten(loom, b),
    ...(size === undefined ? {} : { size }),
    ...(colour === undefined ? {} : { colour }),
  };
  return { loom: addWire(loom, wire), wire: id };
}

/** Joints go by their name alone, as a person would write them. */
export function asWritten(loom: Loom, terminal: string): string {
  const ref = readTerminal(terminal);
  const family = loom.parts.find((p) => p.id === ref.part)?.is;
  const isJoint = (family === "splice" || family === "ground-point") && ref.terminal === "1";
  return isJoint ? ref.part : terminalText(ref);
}

/** What all wires on the first of these terminals that has any say alike. Wires that differ tell nothing of the next. */
function agreed(loom: Loom, key: "size" | "colour", terminals: readonly string[]): string | undefined {
  for (const terminal of terminals) {
    const there = loom.wires.filter((w) => isSameTerminal(w.from, terminal) || isSameTerminal(w.to, terminal));
    const said = new Set(there.map((w) => w[key]));
    if (said.size === 1) return [...said][0];
  }
  return undefined;
}
