import type { Loom, WireText } from "../loom/schema.ts";
import { asWritten, isSameTerminal } from "./connect.ts";
import { nextWireNumber } from "./designation.ts";
import { withoutDrawn } from "./drawn.ts";
import { newPart } from "./new-part.ts";
import { addWire } from "./wires.ts";

/** Why a terminal cannot be joined to a wire by a splice in it, in a sentence; undefined when it can. */
export function whyNotSplice(loom: Loom, wire: string, terminal: string): string | undefined {
  const cut = loom.wires.find((w) => w.id === wire);
  if (cut === undefined) return `There is no wire ${wire}.`;
  return isSameTerminal(cut.from, terminal) || isSameTerminal(cut.to, terminal)
    ? `${wire} already ends at ${terminal}.`
    : undefined;
}

/**
 * Puts a splice into a wire and joins a terminal to it. The wire keeps its number from its `from` end to the splice; a
 * new wire of the same kind goes on to its old far end; another joins the terminal. Nobody knows where the wire was cut,
 * so the lengths (and the ohms, if they were given) of both halves are left open: tell the person. Ask `whyNotSplice`
 * first. `wires`: the half that goes on, then the one to the terminal.
 */
export function spliceInto(
  loom: Loom,
  wire: string,
  terminal: string,
): { readonly loom: Loom; readonly splice: string; readonly wires: readonly [string, string] } {
  const why = whyNotSplice(loom, wire, terminal);
  const cut = loom.wires.find((w) => w.id === wire);
  if (why !== undefined || cut === undefined) throw new Error(`spliceInto: ${why}`);
  const { loom: spliced, id: splice } = newPart(loom, "splice", "splice");
  const { length: _length, ohms: _ohms, ...half } = cut;
  const { id: _id, note: _note, ...kind } = half;
  const far = nextWireNumber(spliced);
  const further: WireText = { ...kind, id: far, from: splice, to: cut.to };
  const halved: Loom = { ...spliced, wires: spliced.wires.map((w) => (w.id === wire ? { ...half, to: splice } : w)) };
  const both = addWire(halved, further);
  const branch = nextWireNumber(both);
  const { unfusedBecause: _why, from: _from, to: _to, ...like } = kind;
  const done = addWire(both, { ...like, id: branch, from: splice, to: asWritten(loom, terminal) });
  // The old route leads past the splice.
  return { loom: withoutDrawn(done, { routes: [wire] }), splice, wires: [far, branch] };
}
