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

/** Sets one value of a wire as the file writes it; undefined takes it away. Its number and ends have edits of their own. */
export const setWireValue = (
  loom: Loom,
  id: string,
  key: Exclude<keyof WireText, "id" | "from" | "to">,
  value: string | undefined,
): Loom => ({
  ...loom,
  wires: loom.wires.map((w) => {
    if (w.id !== id) return w;
    const { [key]: _, ...rest } = w;
    return value === undefined ? rest : { ...rest, [key]: value };
  }) as Loom["wires"],
});
