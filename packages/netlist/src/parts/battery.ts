import { defineFamily, mustWire } from "./family.ts";
import { COMMON_PRACTICE, FROM_MEMORY, quantity } from "./field.ts";

export const battery = defineFamily({
  title: "Battery",
  summary: "A battery: open-circuit volts behind its own resistance.",
  kinds: ["battery"],
  letters: () => "G",
  words: ["accumulator", "12 volt", "24 volt", "power", "plus", "minus", "source", "supply"],
  fields: {
    volts: quantity("volts", undefined, {
      says: "open-circuit volts; when not given, the supply volts of the system",
      standard: "supply of the system",
      source: COMMON_PRACTICE,
    }),
    ohms: quantity("ohms", 0.006, {
      says: "inside resistance",
      standard: "6 mohm (a new 60 Ah battery at 25 °C: 4 to 6 mohm)",
      source: FROM_MEMORY,
    }),
    charging: quantity("ohms", undefined, {
      says: "resistance against being charged: its own volts rise with the current it takes",
      standard: "150 mohm (about 10 A at 14.2 V) in a loom with an alternator, else its inside resistance",
      source: FROM_MEMORY,
    }),
    capacity: quantity("ampHours", undefined, { says: "capacity" }),
  },
  harm: () => "none",
  terminals: () => [mustWire("+", "positive pole"), mustWire("-", "negative pole")],
});
