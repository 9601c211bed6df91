import { defineFamily, mustWire } from "./family.ts";
import { FROM_MEMORY, quantity } from "./field.ts";

export const capacitor = defineFamily({
  title: "Capacitor",
  summary: "A capacitor. Once everything has settled it carries next to nothing; its leak is what remains.",
  kinds: ["film", "electrolytic"],
  letters: () => "C",
  words: ["condenser", "cap", "suppressor", "noise", "buffer", "component"],
  fields: {
    farads: quantity("farads", 1e-6, { says: "capacitance", standard: "1 µF", source: FROM_MEMORY }),
    leak: quantity("ohms", 1e6, { says: "leak resistance", standard: "1 Mohm", source: FROM_MEMORY }),
    rated: quantity("volts", undefined, { says: "rated volts" }),
  },
  harm: () => "none",
  terminals: () => [mustWire("+", "positive end"), mustWire("-", "negative end")],
});
