import { type Dimension, unitsOf } from "./quantity.ts";

// What a person types into a field, as the file writes it. Fields are kinder than the file: a comma, no space before the
// unit, small letters. What cannot be read goes on as it is, and the schema says what is wrong with it.

/** `bare`: a number without a unit, and what it may have meant. */
export type Typed =
  | { readonly kind: "quantity"; readonly text: string }
  | { readonly kind: "bare"; readonly offers: readonly [string, ...string[]] };

/** Units that a bare number is offered, the likeliest first. */
const OFFERED: { readonly [D in Dimension]: readonly [string, ...string[]] } = {
  volts: ["V", "mV"],
  amps: ["A", "mA"],
  ohms: ["ohm", "kohm"],
  seconds: ["ms", "s"],
  metres: ["m", "cm"],
  areaMm2: ["mm2", "AWG"],
  watts: ["W"],
  ampHours: ["Ah"],
  celsius: ["°C"],
  henries: ["H", "mH"],
  farads: ["uF", "nF"],
};

/** Words for units, as people write them [common practice, no source]. */
const WORDS: ReadonlyMap<string, string> = new Map([
  ["volt", "V"],
  ["volts", "V"],
  ["amp", "A"],
  ["amps", "A"],
  ["ohms", "ohm"],
  ["watt", "W"],
  ["watts", "W"],
  ["sec", "s"],
  ["seconds", "s"],
  ["metres", "m"],
  ["meters", "m"],
  ["mm^2", "mm2"],
  ["sqmm", "mm2"],
  ["awg", "AWG"],
]);

const NUMBER = /^([+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d{1,3})?)\s*(.*)$/u;
const GAUGE = /^(\d{1,4}(?:\/0)?)\s*awg$/i;

/** "7ms", "0,75 mm2", "14 awg" as the file writes them; a bare number with the units it may have meant. */
export function asTyped(text: string, dimension: Dimension): Typed {
  const trimmed = text.trim().replace(/(\d),(\d)/g, "$1.$2");
  const gauge = dimension === "areaMm2" ? GAUGE.exec(trimmed) : null;
  if (gauge !== null) return { kind: "quantity", text: `${gauge[1]} AWG` };
  const [, number, unit = ""] = NUMBER.exec(trimmed) ?? [];
  if (number === undefined) return { kind: "quantity", text: trimmed };
  if (unit === "") {
    const [first, ...others] = OFFERED[dimension];
    return { kind: "bare", offers: [`${number} ${first}`, ...others.map((u) => `${number} ${u}`)] };
  }
  return { kind: "quantity", text: `${number} ${spelled(unit, unitsOf(dimension))}` };
}

/** A unit as the file spells it: itself, a word for it, or the same in small letters. */
function spelled(unit: string, units: readonly string[]): string {
  if (units.includes(unit)) return unit;
  const word = WORDS.get(unit.toLowerCase());
  if (word !== undefined) return word;
  const alike = units.filter((u) => u.toLowerCase() === unit);
  return alike.length === 1 ? (alike[0] ?? unit) : unit;
}
