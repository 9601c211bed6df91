import { defineFamily, mustWire, wireOrCase } from "./family.ts";
import { FROM_MEMORY, quantity, span } from "./field.ts";

export const starter = defineFamily({
  title: "Starter",
  summary: "Starter motor with its solenoid: a pull-in winding that returns through the motor, and a hold-in winding.",
  kinds: ["solenoid"],
  letters: () => "M",
  words: ["crank", "cranking", "solenoid", "start", "engine", "load"],
  fields: {
    rated: quantity("amps", 150, {
      says: "current while it cranks",
      standard: "150 A, shown as assumed",
      source: FROM_MEMORY,
    }),
    pullIn: quantity("ohms", 0.5, { says: "pull-in winding at 20 °C", standard: "0.5 ohm", source: FROM_MEMORY }),
    holdIn: quantity("ohms", 1.4, { says: "hold-in winding at 20 °C", standard: "1.4 ohm", source: FROM_MEMORY }),
    operate: span("volts", ({ systemVolts }) => ({ least: 0.4 * systemVolts, most: 0.65 * systemVolts }), {
      says: "volts at 20 °C on terminal 50 at which it pulls in",
      standard: "0.40 to 0.65 of the system volts",
      source: FROM_MEMORY,
    }),
    release: span("volts", ({ systemVolts }) => ({ least: 0.1 * systemVolts, most: 0.4 * systemVolts }), {
      says: "volts at 20 °C over the hold-in winding at which it lets go",
      standard: "0.10 to 0.40 of the system volts",
      source: FROM_MEMORY,
    }),
    operateTime: span(
      "seconds",
      { least: 0.01, most: 0.06 },
      { says: "time from feed on 50 to the main contact", standard: "10 ms to 60 ms", source: FROM_MEMORY },
    ),
    releaseTime: span(
      "seconds",
      { least: 0.005, most: 0.05 },
      { says: "time from feed off to the main contact open", standard: "5 ms to 50 ms", source: FROM_MEMORY },
    ),
    contactOhms: quantity("ohms", 0.0005, {
      says: "resistance of the main contact",
      standard: "0.5 mohm",
      source: FROM_MEMORY,
    }),
  },
  harm: () => "crank",
  // Numbers after DIN 72552: 30 from the battery, 50 from the key, 31 the return.
  terminals: () => [
    mustWire("30", "cable from the battery"),
    mustWire("50", "feed of the solenoid"),
    wireOrCase("31", "return, usually its body"),
  ],
});
