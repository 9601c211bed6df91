// Outside checks: conductors against printed tables, and units against a general-purpose library. The numbers stand here
// as they are printed; what the tool takes must follow within what their digits allow.

import { ampacity, copperFactor, copperOhms, type Loom, resolve, sketch } from "@loomproof/netlist";
import fc from "fast-check";
import { unit } from "mathjs";
import { describe, expect, test } from "vitest";

const one = sketch({ parts: { "G1 battery": {}, "E1 lamp": {} }, wires: ["G1.+ E1.a", "E1.b G1.-"] });

/** The wire of a loom with this size and length, as the tool takes it. */
function wire(size: string, length = "1 m") {
  const loom: Loom = { ...one, wires: one.wires.map((w) => ({ ...w, size, length })) };
  const [first] = resolve(loom).wires;
  if (first === undefined) throw new Error("no wire");
  return first;
}

// "Lessons In Electric Circuits", reference volume, chapter 3, copper wire gage table (read): diameters in inches.
const DIAMETERS: readonly (readonly [awg: string, inches: number])[] = [
  ["30", 0.01003],
  ["26", 0.01594],
  ["24", 0.0201],
  ["22", 0.02535],
  ["20", 0.03196],
  ["18", 0.0403],
  ["16", 0.05082],
  ["14", 0.06408],
  ["12", 0.08081],
  ["10", 0.1019],
  ["8", 0.1285],
  ["6", 0.162],
  ["4", 0.2043],
  ["2", 0.2576],
  ["1", 0.2893],
  ["0", 0.3249],
  ["00", 0.3648],
  ["000", 0.4096],
  ["0000", 0.46],
];

test.each(DIAMETERS)("the area of %s AWG is that of a round wire of %f in", (awg, inches) => {
  const area = (Math.PI / 4) * unit(inches, "inch").toNumber("mm") ** 2;
  const halfDigit = inches < 0.1 ? 5e-6 : 5e-5;
  const allowed = (2 * halfDigit) / inches + 0.0005 / area;
  expect(Math.abs((wire(`${awg} AWG`).areaMm2 ?? 0) / area - 1)).toBeLessThan(allowed);
});

// Common practice, no source: sizes above 0 are also written 1/0 to 4/0.
test.each([
  ["1/0 AWG", "0 AWG"],
  ["2/0 AWG", "00 AWG"],
  ["3/0 AWG", "000 AWG"],
  ["4/0 AWG", "0000 AWG"],
])("%s is %s", (slashed, plain) => {
  expect(wire(slashed).areaMm2).toBe(wire(plain).areaMm2);
});

// IEC 60228, greatest resistance at 20 °C of fine-stranded plain conductors (class 5), ohm/km; read at two places that
// agree. A conductor of the named area is below it: the standard leaves room for strands a little
// too thin, up to 14 %.
const CLASS_5: readonly (readonly [areaMm2: number, ohmPerKm: number])[] = [
  [0.5, 39],
  [0.75, 26],
  [1, 19.5],
  [1.5, 13.3],
  [2.5, 7.98],
  [4, 4.95],
  [6, 3.3],
  [10, 1.91],
  [16, 1.21],
  [25, 0.78],
  [35, 0.554],
  [50, 0.386],
  [70, 0.272],
  [95, 0.206],
  [120, 0.161],
];

test.each(CLASS_5)("a kilometre of %f mm² has at most %f ohm, and is close below it", (area, most) => {
  const ohms = wire(`${area} mm2`, "1000 m").ohms;
  expect(ohms).toBeLessThanOrEqual(most);
  expect(ohms).toBeGreaterThan(0.86 * most);
  expect(ohms).toBeCloseTo(copperOhms(1000, area), 9);
});

// IEC 60228, factors that bring a measured resistance to 20 °C (read), to three digits; the standard's copper has a
// coefficient that differs a little from AC 43.13-1B, page 11-22, which the tool follows: 0.4 % apart at most.
test.each([
  [50, 0.893],
  [100, 0.758],
])("copper at %d °C, brought to 20 °C by %f", (celsius, factor) => {
  expect(Math.abs(1 / copperFactor(celsius) / factor - 1)).toBeLessThan(0.004);
});

// AC 43.13-1B page 11-22 (read in two copies): L2 = 254.5 L1 / (234.5 + T2).
test("the length that a hot conductor may have, after AC 43.13-1B", () => {
  for (const celsius of [20, 60, 105, 200]) expect(1 / copperFactor(celsius)).toBeCloseTo(254.5 / (234.5 + celsius), 9);
});

describe("33 CFR 183.425 Table 5, column of 105 °C insulation (read)", () => {
  const ROWS: readonly (readonly [awg: string, amps: number])[] = [
    ["18", 20],
    ["16", 25],
    ["14", 35],
    ["12", 45],
    ["10", 60],
    ["8", 80],
    ["6", 120],
    ["4", 160],
    ["3", 180],
    ["2", 210],
    ["1", 245],
    ["0", 285],
    ["00", 330],
    ["000", 385],
    ["0000", 445],
  ];
  test.each(ROWS)("%s AWG carries %d A", (awg, amps) => {
    expect(ampacity(wire(`${awg} AWG`).areaMm2 ?? 0)).toBeCloseTo(amps, 1);
  });

  test("between the rows a thicker conductor never carries less", () => {
    const area = fc.double({ min: 0.05, max: 120, noNaN: true });
    fc.assert(
      fc.property(area, area, (a, b) => ampacity(Math.min(a, b)) <= ampacity(Math.max(a, b)) + 1e-9),
      { seed: 1, numRuns: 1000 },
    );
  });
});

test.each([
  ["3 ft", "ft"],
  ["7 in", "in"],
  ["178 mm", "mm"],
  ["42 cm", "cm"],
  ["0.9 m", "m"],
])("%s is what a library of units makes of it", (text, name) => {
  expect(wire("1 mm2", text).lengthM).toBeCloseTo(unit(Number.parseFloat(text), name).toNumber("m"), 9);
});
