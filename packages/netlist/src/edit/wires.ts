import type { Loom, WireText } from "../loom/schema.ts";

// Edits of wires: loom in, new loom out.

/** Adds a wire at the end. Its id must be free. */
export function addWire(loom: Loom, wire: WireText): Loom {
  if (loom.wires.some((w) => w.id === wire.id)) throw new Error(`addWire: ${wire.id} is there already`);
  return { ...loom, wires: [...loom.wires, wire] };
}

export const removeWire = (loom: Loom, id: string): Loom => ({ ...loom, wires: loom.wires.filter((w) => w.id !== id) });

/** Moves one end of a wire to another terminal. */
export const moveWireEnd = (loom: Loom, id: string, end: "from" | "to", terminal: string): Loom => ({
  ...loom,
  wires: loom.wires.map((w) => (w.id === id ? { ...w, [end]: terminal } : w)),
});
