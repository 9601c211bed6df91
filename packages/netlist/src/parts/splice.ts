import { defineFamily, mustWire } from "./family.ts";

export const splice = defineFamily({
  title: "Splice",
  summary: "Wires joined to each other: crimp, solder, bus bar or stud.",
  kinds: ["splice", "stud"],
  letters: () => "XS",
  words: ["join", "crimp", "solder", "joint", "branch", "tee", "bus bar", "busbar", "terminal block"],
  fields: {},
  harm: () => "none",
  terminals: () => [mustWire("1", "joint")],
});
