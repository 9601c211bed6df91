import { type Loom, loomSchema } from "./schema.ts";

type Value = unknown;

interface Sketch {
  /** "K1 relay make" with the values of the part. */
  readonly parts: Readonly<Record<string, Readonly<Record<string, Value>>>>;
  /** "G1.+ F1.a": each a wire of 1 mm² and 1 m, numbered in order. */
  readonly wires: readonly string[];
  readonly definitions?: readonly Value[];
}

/** A small loom written in code, for examples and tests: keys of `parts` are "ID family" or "ID family kind". */
export function sketch({ parts, wires, definitions = [] }: Sketch): Loom {
  return loomSchema.parse({
    format: "loomproof/1",
    system: { reference: "G1.-" },
    definitions,
    parts: Object.entries(parts).map(([key, values]) => {
      const [id, is, kind] = key.split(" ");
      return { id, is, ...(kind === undefined ? {} : { kind }), ...values };
    }),
    wires: wires.map((w, i) => {
      const [from, to] = w.split(" ");
      return { id: `W${i + 1}`, from, to, size: "1 mm2", length: "1 m" };
    }),
  });
}
