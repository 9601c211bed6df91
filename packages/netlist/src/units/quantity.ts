import { awgAreaMm2 } from "../reference/awg.ts";

/** What a quantity measures. In memory every value is in the unit the name says (areas in mm², the rest SI). */
export type Dimension =
  | "volts"
  | "amps"
  | "ohms"
  | "seconds"
  | "metres"
  | "areaMm2"
  | "watts"
  | "ampHours"
  | "celsius"
  | "henries"
  | "farads";

/** Accepted spellings with the factor to the unit in memory. The first of each is the one named in messages. */
const UNITS: { readonly [D in Dimension]: Readonly<Record<string, number>> } = {
  volts: { V: 1, mV: 1e-3, kV: 1e3 },
  amps: { A: 1, mA: 1e-3, uA: 1e-6, µA: 1e-6, μA: 1e-6 },
  ohms: { ohm: 1, mohm: 1e-3, kohm: 1e3, Mohm: 1e6, Ω: 1, mΩ: 1e-3, kΩ: 1e3, MΩ: 1e6 },
  seconds: { s: 1, ms: 1e-3, us: 1e-6, min: 60, h: 3600 },
  metres: { m: 1, mm: 1e-3, cm: 1e-2, ft: 0.3048, in: 0.0254 },
  areaMm2: { mm2: 1, "mm²": 1 },
  watts: { W: 1, kW: 1e3 },
  ampHours: { Ah: 1 },
  celsius: { "°C": 1, C: 1 },
  henries: { H: 1, mH: 1e-3 },
  farads: { F: 1, mF: 1e-3, uF: 1e-6, µF: 1e-6, μF: 1e-6, nF: 1e-9 },
};

const EXAMPLES: { readonly [D in Dimension]: string } = {
  volts: `"12.6 V"`,
  amps: `"15 A" or "30 mA"`,
  ohms: `"85 ohm" or "10 kohm"`,
  seconds: `"7 ms" or "1.5 s"`,
  metres: `"0.9 m" or "3 ft"`,
  areaMm2: `"1.5 mm2" or "14 AWG"`,
  watts: `"21 W"`,
  ampHours: `"60 Ah"`,
  celsius: `"30 °C"`,
  henries: `"0.3 H"`,
  farads: `"100 uF"`,
};

const NUMBER_AND_UNIT = /^\s*([+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d{1,3})?)\s*([^\s\d].*?)\s*$/u;

const AWG = /^\s*(\d{1,4})(\/0)?\s*AWG\s*$/u;

export type ParsedQuantity =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly expected: string };

/** Reads `"7 ms"` and the like. The decimal mark is a point; a comma is refused with the reason. */
export function parseQuantity(text: string, dimension: Dimension): ParsedQuantity {
  const expected = `a value with its unit, such as ${EXAMPLES[dimension]}`;
  if (text.includes(",")) return { ok: false, expected: `${expected} (with a decimal point, not a comma)` };
  const gauge = AWG.exec(text);
  if (dimension === "areaMm2" && gauge) {
    // 2/0 is another way to write 00.
    const area = awgAreaMm2(gauge[2] === undefined ? (gauge[1] ?? "") : "0".repeat(Number(gauge[1])));
    return area === undefined
      ? { ok: false, expected: `an AWG size from 0000 to 30 or mm2` }
      : { ok: true, value: area };
  }
  const match = NUMBER_AND_UNIT.exec(text);
  if (!match) return { ok: false, expected };
  const number = Number(match[1]);
  const unit = match[2] ?? "";
  const factor = Object.hasOwn(UNITS[dimension], unit) ? UNITS[dimension][unit] : undefined;
  if (factor === undefined || !Number.isFinite(number)) return { ok: false, expected };
  return { ok: true, value: number * factor };
}

/** Accepted spellings of the units of a dimension. */
export const unitsOf = (dimension: Dimension): readonly string[] => Object.keys(UNITS[dimension]);

/** The value of a quantity that the schema has already accepted. Throws on text that it would have refused. */
export function quantityValue(text: string, dimension: Dimension): number {
  const parsed = parseQuantity(text, dimension);
  if (!parsed.ok) throw new Error(`quantity "${text}" was not checked: expected ${parsed.expected}`);
  return parsed.value;
}
