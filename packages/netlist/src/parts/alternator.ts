import { z } from "zod";
import { defineFamily, mayBeOpen, mustWire, wireOrCase } from "./family.ts";
import { COMMON_PRACTICE, FROM_MEMORY, quantity, shaped, span } from "./field.ts";
import { plainText } from "./text-form.ts";

export const alternator = defineFamily({
  title: "Alternator",
  summary: "Gives current while the engine turns it and its field was excited, usually through the charge lamp on D+.",
  kinds: ["charge-lamp"],
  letters: () => "G",
  words: ["generator", "dynamo", "charging", "charge", "charger", "belt", "source"],
  fields: {
    turnedBy: shaped(z.string().min(1).max(60), (raw) => raw, {
      form: plainText,
      says: "the engine that turns it",
      standard: "the only engine of the loom",
    }),
    volts: quantity("volts", undefined, {
      says: "regulated volts; when not given, the supply volts of the system with the engine running",
      standard: "running supply of the system",
      source: COMMON_PRACTICE,
    }),
    ohms: quantity("ohms", 0.02, {
      says: "inside resistance while it regulates",
      standard: "20 mohm",
      source: FROM_MEMORY,
    }),
    field: quantity("ohms", 8, {
      says: "field winding seen from D+ at rest",
      standard: "8 ohm",
      source: FROM_MEMORY,
    }),
    excitedAt: span(
      "amps",
      { least: 0.05, most: 0.12 },
      { says: "field current at which it begins to give", standard: "50 mA to 120 mA", source: FROM_MEMORY },
    ),
    rated: quantity("amps", undefined, { says: "greatest current" }),
  },
  harm: () => "none",
  // Letters in wide use on the part itself: B+ output, D+ exciter; 31 return after DIN 72552.
  terminals: () => [
    mustWire("B+", "output to the battery"),
    mayBeOpen("D+", "exciter, usually through the charge lamp"),
    wireOrCase("31", "return, usually its body"),
  ],
});
