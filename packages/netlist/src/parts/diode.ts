import { defineFamily, mustWire } from "./family.ts";
import { COMMON_PRACTICE, FROM_MEMORY, quantity } from "./field.ts";

export const diode = defineFamily({
  title: "Diode",
  summary: "Lets current pass from A to K only. A zener also passes it backwards above its volts.",
  kinds: ["diode", "zener"],
  letters: () => "V",
  words: ["one way", "rectifier", "blocking", "flyback", "freewheel", "clamp", "valve", "component"],
  fields: {
    drop: quantity("volts", undefined, {
      says: "forward volts of a plain one-slope diode; when not given, a two-slope silicon curve",
      standard: "0.6 V + 2 ohm up to 69 mA, 0.72 V + 0.25 ohm above",
      source: COMMON_PRACTICE,
    }),
    ohms: quantity("ohms", 0.05, {
      says: "forward resistance beside `drop`",
      standard: "50 mohm",
      source: FROM_MEMORY,
    }),
    volts: quantity("volts", 24, { says: "zener volts (kind zener)", standard: "24 V", source: FROM_MEMORY }),
    rated: quantity("amps", undefined, { says: "rated current" }),
  },
  harm: () => "none",
  terminals: () => [mustWire("A", "anode"), mustWire("K", "cathode")],
});
