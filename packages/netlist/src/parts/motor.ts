import { z } from "zod";
import { quantityValue } from "../units/quantity.ts";
import { defineFamily, mustWire, wireOrCase } from "./family.ts";
import { quantityText, shaped } from "./field.ts";
import { drawFields } from "./load-fields.ts";
import { jsonText } from "./text-form.ts";

const emfSchema = z.strictObject({
  input: z.string().min(1).max(60),
  volts: z.record(z.string().max(40), quantityText("volts")),
});

export const motor = defineFamily({
  title: "Motor",
  summary: "A motor: pump, fan, starter or other. Moves without warning when fed.",
  kinds: ["motor", "pump", "fan", "starter"],
  letters: () => "M",
  words: ["moves", "turns", "wiper", "window", "blower", "actuator", "load"],
  fields: {
    ...drawFields,
    emf: shaped(
      emfSchema,
      (raw) =>
        raw === undefined
          ? undefined
          : {
              input: raw.input,
              volts: Object.fromEntries(Object.entries(raw.volts).map(([k, v]) => [k, quantityValue(v, "volts")])),
            },
      {
        form: jsonText,
        says: "volts it makes when something else turns it, by the value of a world input",
        standard: "none",
      },
    ),
  },
  harm: (kind) => (kind === "starter" ? "crank" : "move"),
  terminals: () => [mustWire("+", "feed"), wireOrCase("-", "return")],
});
