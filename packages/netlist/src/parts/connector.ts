import { z } from "zod";
import { defineFamily, mayBeOpen } from "./family.ts";
import { FROM_MEMORY, quantity, shaped } from "./field.ts";
import { listText } from "./text-form.ts";

const WAYS = ["1", "2"] as const;

/** Names of the two sides of a cavity: a is one half of the connector, b the other. */
export const sidesOf = (cavity: string): readonly [string, string] => [`a${cavity}`, `b${cavity}`];

export const connector = defineFamily({
  title: "Connector",
  summary: "Two halves that plug together. Cavity 1 has the terminals a1 and b1, one on each half.",
  kinds: ["inline", "bulkhead"],
  letters: () => "X",
  words: ["plug", "socket", "coupling", "housing", "multi-way", "cavity", "disconnect", "joint"],
  fields: {
    cavities: shaped(z.array(z.string().min(1).max(12)).min(1).max(200), (raw): readonly string[] => raw ?? WAYS, {
      form: listText,
      says: "names of the cavities in use",
      standard: "1 and 2",
    }),
    contactOhms: quantity("ohms", 0.005, {
      says: "resistance of a mated contact",
      standard: "5 mohm",
      source: FROM_MEMORY,
    }),
    rated: quantity("amps", undefined, { says: "rated current of a contact" }),
  },
  harm: () => "none",
  terminals: ({ cavities }) =>
    cavities.flatMap((cavity) =>
      sidesOf(cavity).map((t, side) => mayBeOpen(t, `cavity ${cavity}, half ${"ab"[side]}`)),
    ),
});
