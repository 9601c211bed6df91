import { defineFamily, mustWire } from "./family.ts";
import { FROM_MEMORY, quantity } from "./field.ts";

export const resistor = defineFamily({
  title: "Resistor",
  summary: "A resistor in series with something, or from a wire to feed or ground.",
  kinds: ["resistor"],
  letters: () => "R",
  words: ["ohm", "dropper", "ballast", "series", "pull-up", "pull-down", "terminator", "component"],
  fields: {
    ohms: quantity("ohms", 1000, { says: "resistance", standard: "1 kohm, shown as assumed", source: FROM_MEMORY }),
  },
  harm: () => "none",
  terminals: () => [mustWire("a", "one end"), mustWire("b", "other end")],
});
