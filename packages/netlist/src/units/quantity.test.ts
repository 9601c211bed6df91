import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Dimension, parseQuantity } from "./quantity.ts";

const accepted: readonly (readonly [text: string, dimension: Dimension, value: number])[] = [
  ["12.6 V", "volts", 12.6],
  ["12.6V", "volts", 12.6],
  [" 12.6  V ", "volts", 12.6],
  ["-0.5 V", "volts", -0.5],
  ["30 mA", "amps", 0.03],
  ["5 µA", "amps", 5e-6],
  ["85 ohm", "ohms", 85],
  ["10 kΩ", "ohms", 10_000],
  ["7 ms", "seconds", 0.007],
  ["2 min", "seconds", 120],
  ["3 ft", "metres", 0.9144],
  ["7 in", "metres", 0.1778],
  ["1.5 mm²", "areaMm2", 1.5],
  ["14 AWG", "areaMm2", 2.0809],
  ["1e-3 V", "volts", 0.001],
  [".5 V", "volts", 0.5],
];
test.each(accepted)("%s", (text, dimension, value) => {
  const read = parseQuantity(text, dimension);
  expect(read.ok && read.value).toBeCloseTo(value, 12);
});

describe("is refused, with what was expected", () => {
  const refused: readonly (readonly [text: string, dimension: Dimension, expected: string])[] = [
    ["12,6 V", "volts", "decimal point, not a comma"],
    ["12.6", "volts", `such as "12.6 V"`],
    ["V", "volts", "with its unit"],
    ["12.6 A", "volts", "with its unit"],
    ["12.6 v", "volts", "with its unit"],
    ["NaN V", "volts", "with its unit"],
    ["Infinity V", "volts", "with its unit"],
    ["1e999 V", "volts", "with its unit"],
    ["0x10 V", "volts", "with its unit"],
    ["", "volts", "with its unit"],
    ["99 AWG", "areaMm2", "from 0000 to 30"],
    ["14 awg", "areaMm2", "14 AWG"],
    ["5 constructor", "volts", "with its unit"],
  ];
  test.each(refused)("%s", (text, dimension, expected) => {
    const read = parseQuantity(text, dimension);
    expect(read.ok ? "accepted" : read.expected).toContain(expected);
  });
});

test("any number with its unit comes back as it was", () => {
  fc.assert(
    fc.property(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), (x) => {
      const read = parseQuantity(`${x} V`, "volts");
      return read.ok && Object.is(read.value, x + 0);
    }),
    { seed: 1, numRuns: 500 },
  );
});

test("no text at all makes it throw", () => {
  fc.assert(
    fc.property(fc.string(), (text) => typeof parseQuantity(text, "areaMm2").ok === "boolean"),
    { seed: 1, numRuns: 500 },
  );
});
