import { defineFamily, mustWire, wireOrCase } from "./family.ts";
import { COMMON_PRACTICE, quantity } from "./field.ts";
import { drawFields } from "./load-fields.ts";

export const led = defineFamily({
  title: "LED unit",
  summary: "A lamp of light-emitting diodes. Nothing below its knee; then it glows on very little current.",
  kinds: ["unit", "indicator"],
  letters: (kind) => (kind === "indicator" ? "P" : "E"),
  words: ["light", "light bar", "work light", "diode lamp", "load"],
  fields: {
    ...drawFields,
    knee: quantity("volts", ({ systemVolts }) => (7 / 12) * systemVolts, {
      says: "volts below which no current flows",
      standard: "7 V for a 12 V unit (6 to 8 V)",
      source: COMMON_PRACTICE,
    }),
  },
  harm: () => "none",
  terminals: () => [mustWire("+", "feed"), wireOrCase("-", "return")],
});
