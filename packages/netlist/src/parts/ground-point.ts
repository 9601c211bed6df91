import { defineFamily, mustWire } from "./family.ts";
import { FROM_MEMORY, quantity } from "./field.ts";

export const groundPoint = defineFamily({
  title: "Ground point",
  summary: "A stud on metal. Wired like anything else; parts may sit on its metal with their case.",
  kinds: ["stud", "body", "engine"],
  letters: () => "XE",
  words: ["earth", "ground", "chassis", "frame", "mass", "minus", "stud", "body", "strap", "joint"],
  fields: {
    joint: quantity("ohms", 0.0005, {
      says: "resistance between the wires on the stud and the metal under it",
      standard: "0.5 mohm",
      source: FROM_MEMORY,
    }),
  },
  harm: () => "none",
  terminals: () => [mustWire("1", "stud")],
});
