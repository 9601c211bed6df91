import { FORMAT, type Loom, loomSchema } from "../loom/schema.ts";

/** A loom with nothing in it: 12 V, values in ranges. */
export const newLoom = (): Loom =>
  loomSchema.parse({ format: FORMAT, title: "New loom", system: { volts: 12 }, parts: [], wires: [] });

/** Names the loom; a name of nothing but space takes the title away. */
export function setTitle(loom: Loom, title: string): Loom {
  const { title: _, ...rest } = loom;
  const trimmed = title.trim();
  return trimmed === "" ? rest : { ...rest, title: trimmed };
}
