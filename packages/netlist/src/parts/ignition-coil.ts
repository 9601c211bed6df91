import { defineFamily, mayBeOpen, mustWire, wireOrCase } from "./family.ts";
import { FROM_MEMORY, quantity } from "./field.ts";
import { drawFields } from "./load-fields.ts";

export const ignitionCoil = defineFamily({
  title: "Ignition coil",
  summary: "An ignition coil: switched in its return, or with its own driver that a signal commands.",
  kinds: ["plain", "own-driver"],
  letters: () => "T",
  words: ["spark", "plug", "high tension", "ignition", "load"],
  fields: {
    ...drawFields,
    level: quantity("volts", 3, {
      says: "signal volts from which the driver inside acts (kind own-driver)",
      standard: "3 V",
      source: FROM_MEMORY,
    }),
  },
  // Left on, its winding burns.
  harm: () => "heat",
  // Numbers after DIN 72552: 15 feed, 1 switched end, 31 return.
  terminals: (_values, kind) =>
    kind === "own-driver"
      ? [mustWire("15", "feed"), mustWire("1", "signal"), wireOrCase("31", "return")]
      : [mustWire("15", "feed"), mustWire("1", "switched end"), mayBeOpen("4", "spark")],
});
