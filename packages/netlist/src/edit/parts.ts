import type { Loom, PartText } from "../loom/schema.ts";
import { readTerminal } from "../loom/terminal-ref.ts";

// Edits of parts: loom in, new loom out. What an edit does not touch is the same object as before.

/** Adds a part at the end. Its id must be free. */
export function addPart(loom: Loom, part: PartText): Loom {
  if (loom.parts.some((p) => p.id === part.id)) throw new Error(`addPart: ${part.id} is there already`);
  return { ...loom, parts: [...loom.parts, part] };
}

/** Takes a part away. The wires that lose an end stay; their ids come with the loom, for the person to be told. */
export function removePart(loom: Loom, id: string): { readonly loom: Loom; readonly loose: readonly string[] } {
  const touches = (end: string) => readTerminal(end).part === id;
  return {
    loom: { ...loom, parts: loom.parts.filter((p) => p.id !== id) },
    loose: loom.wires.filter((w) => touches(w.from) || touches(w.to)).map((w) => w.id),
  };
}

/** Sets one value of a part as the file writes it; undefined takes it away. */
export function setValue(loom: Loom, id: string, key: string, value: unknown): Loom {
  return {
    ...loom,
    parts: loom.parts.map((p) => {
      if (p.id !== id) return p;
      const { [key]: _, ...rest } = p;
      return (value === undefined ? rest : { ...p, [key]: value }) as PartText;
    }),
  };
}
