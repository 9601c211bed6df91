import { z } from "zod";
import { quantityValue } from "../units/quantity.ts";
import { defineFamily, mayBeOpen, mustWire, type Terminal } from "./family.ts";
import { COMMON_PRACTICE, choice, FROM_MEMORY, quantity, quantityText, shaped, span } from "./field.ts";
import { contactsText, plainText, windingsText } from "./text-form.ts";

/** A coil: between which terminals, its ohms at 20 °C, its turns (relative) and direction (from first to second). */
export interface Winding {
  readonly between: readonly [string, string];
  readonly ohms: number | undefined;
  readonly turns: number;
}

/** A contact set. A make contact joins common and `make` when the relay is in, a break contact when it is out. */
export interface Contact {
  readonly common: string;
  readonly make: string | undefined;
  readonly break: string | undefined;
}

/** What is fitted across the coil against the voltage of its own current when it is switched off. */
export type Suppression =
  | { readonly kind: "none" }
  | { readonly kind: "diode"; readonly cathode: string; readonly anode: string }
  | { readonly kind: "resistor"; readonly ohms: number }
  | { readonly kind: "zener"; readonly volts: number; readonly cathode: string; readonly anode: string };

const name = z.string().min(1).max(40);
const pairText = z
  .string()
  .regex(/^[^>\s]{1,20}>[^>\s]{1,20}$/, { error: `two terminals with ">" between, such as "85>86"` });
const suppressionSchema = z.union([
  z.literal("none"),
  z.strictObject({ diode: pairText }),
  z.strictObject({ resistor: quantityText("ohms") }),
  z.strictObject({ zener: quantityText("volts"), diode: pairText.optional() }),
]);

const ends = (text: string): { anode: string; cathode: string } => {
  const [anode = "", cathode = ""] = text.split(">");
  return { anode, cathode };
};

const CONTACTS: Readonly<Record<string, readonly Contact[]>> = {
  make: [{ common: "30", make: "87", break: undefined }],
  break: [{ common: "30", make: undefined, break: "87a" }],
  changeover: [{ common: "30", make: "87", break: "87a" }],
  latching: [{ common: "30", make: "87", break: undefined }],
};

/** Contact sets of a relay: as given, else by kind. */
export const contactsOf = (given: readonly Contact[] | undefined, kind: string): readonly Contact[] =>
  given ?? CONTACTS[kind] ?? [];

export const relay = defineFamily({
  title: "Relay",
  summary:
    "A coil that moves contacts. It pulls in at one current and lets go at a smaller one. A latching relay stays where " +
    "it is: current from the first to the second terminal of a winding sets it, the other way resets it.",
  kinds: ["make", "break", "changeover", "latching"],
  letters: () => "K",
  words: ["thing that clicks", "clicks", "coil", "contactor", "solenoid", "switches a load", "four pin", "five pin"],
  fields: {
    coil: quantity("ohms", 90, {
      says: "coil resistance at 20 °C",
      standard: "90 ohm (sheets read: 75 to 120 ohm)",
      source: "data sheets in the release study (read), bracketed",
    }),
    windings: shaped(
      z
        .array(
          z.strictObject({
            between: z.tuple([name, name]),
            ohms: quantityText("ohms").optional(),
            turns: z.number().positive().optional(),
          }),
        )
        .min(1)
        .max(4),
      (raw): readonly Winding[] =>
        (raw ?? [{ between: ["86", "85"] }]).map((w) => ({
          between: w.between,
          ohms: w.ohms === undefined ? undefined : quantityValue(w.ohms, "ohms"),
          turns: w.turns ?? 1,
        })),
      {
        form: windingsText,
        says: "windings; the first terminal of each is its start",
        standard: "one, from 86 to 85",
        source: "DIN 72552",
      },
    ),
    contacts: shaped(
      z.array(z.strictObject({ common: name, make: name.optional(), break: name.optional() })).max(12),
      (raw): readonly Contact[] | undefined => raw?.map((c) => ({ common: c.common, make: c.make, break: c.break })),
      { form: contactsText, says: "contact sets", standard: "by kind: 30 and 87, 87a", source: "DIN 72552" },
    ),
    operate: span("volts", ({ systemVolts }) => ({ least: 0.35 * systemVolts, most: 0.6 * systemVolts }), {
      says: "coil volts at 20 °C at which it pulls in",
      standard: "0.35 to 0.60 of the system volts",
      source: COMMON_PRACTICE,
    }),
    release: span("volts", ({ systemVolts }) => ({ least: 0.1 * systemVolts, most: 0.45 * systemVolts }), {
      says: "coil volts at 20 °C at which it lets go",
      standard: "0.10 to 0.45 of the system volts",
      source: COMMON_PRACTICE,
    }),
    operateTime: span(
      "seconds",
      { least: 0.003, most: 0.015 },
      {
        says: "time from coil current to the make contact closing",
        standard: "3 ms to 15 ms",
        source: FROM_MEMORY,
      },
    ),
    releaseTime: span(
      "seconds",
      { least: 0.0015, most: 0.02 },
      {
        says: "time from coil current off to the rest contact closing; without one, to the make contact opening",
        standard: "1.5 ms without suppression to 20 ms with a plain diode",
        source: FROM_MEMORY,
      },
    ),
    transit: span(
      "seconds",
      { least: 0.0003, most: 0.003 },
      {
        says: "time a changeover contact is in the air",
        standard: "0.3 ms to 3 ms",
        source: FROM_MEMORY,
      },
    ),
    contactOhms: quantity("ohms", 0.005, {
      says: "resistance of a closed contact",
      standard: "5 mohm",
      source: FROM_MEMORY,
    }),
    suppression: shaped(
      suppressionSchema,
      (raw): Suppression => {
        if (raw === undefined || raw === "none") return { kind: "none" };
        if ("resistor" in raw) return { kind: "resistor", ohms: quantityValue(raw.resistor, "ohms") };
        if ("zener" in raw)
          return { kind: "zener", volts: quantityValue(raw.zener, "volts"), ...ends(raw.diode ?? "85>86") };
        return { kind: "diode", ...ends(raw.diode) };
      },
      { form: { kind: "suppression" }, says: "what is fitted across the coil", standard: "none" },
    ),
    seriesDiode: shaped(pairText, (raw) => (raw === undefined ? undefined : ends(raw)), {
      form: plainText,
      says: "a diode inside, in series with the coil: the way current may flow, such as 86>85",
      standard: "none",
    }),
    delivered: choice(["out", "in"], "out", {
      says: "how a latching relay stands when the loom is first powered",
      source: COMMON_PRACTICE,
    }),
    rated: quantity("amps", undefined, { says: "rated contact current" }),
  },
  harm: () => "none",
  terminals: (values, kind): readonly Terminal[] => {
    const contacts = contactsOf(values.contacts, kind);
    const coil = values.windings.flatMap((w) => w.between);
    const contact = contacts.flatMap((c) => [c.common, c.make, c.break].filter((t) => t !== undefined));
    const spare = contacts.length > 1 || contact.length > 2;
    const list = [
      ...coil.map((t) => mustWire(t, "coil")),
      ...contact.map((t) => (spare ? mayBeOpen(t, "contact") : mustWire(t, "contact"))),
    ];
    return list.filter((t, i) => list.findIndex((u) => u.name === t.name) === i);
  },
});
