import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Circuit } from "../circuit/circuit.ts";
import { filament } from "../circuit/curve.ts";
import { USUAL } from "../circuit/patch.ts";
import { circuitOf, type TestElement, voltsAt } from "../testing/network.ts";
import { floatingNodes } from "./floating.ts";
import { networkOf } from "./network.ts";
import { type OperatingPoint, operate } from "./operate.ts";

const solve = (circuit: Circuit): OperatingPoint =>
  operate(networkOf(circuit, USUAL).solvable, new Uint8Array(circuit.elements.length).fill(1));

describe("worked by hand", () => {
  test("a divider: 12 V over 1 and 2 ohm gives 8 V", () => {
    const c = circuitOf([
      { kind: "source", a: 1, b: 0, volts: 12, ohms: 1e-6 },
      { kind: "resistor", a: 1, b: 2, ohms: 1 },
      { kind: "resistor", a: 2, b: 0, ohms: 2 },
    ]);
    // 12 V × 2 / (1 + 2 + 1e-6) = 8 V less 2.7 µV.
    expect(voltsAt(c, solve(c).volts, 2)).toBeCloseTo(8, 5);
  });

  test("a diode in forward direction: (12 − 0.7) V over 10 + 1 ohm", () => {
    const c = circuitOf([
      { kind: "source", a: 1, b: 0, volts: 12, ohms: 1e-3 },
      { kind: "diode", a: 1, b: 2, drop: 0.7, ohms: 1 },
      { kind: "resistor", a: 2, b: 0, ohms: 10 },
    ]);
    expect(solve(c).amps[2]).toBeCloseTo(11.3 / 11.001, 9);
  });

  test("a diode backwards conducts nothing and leaves the node held by the resistor", () => {
    const c = circuitOf([
      { kind: "source", a: 1, b: 0, volts: 12, ohms: 1e-3 },
      { kind: "diode", a: 2, b: 1, drop: 0.7, ohms: 1 },
      { kind: "resistor", a: 2, b: 0, ohms: 10 },
    ]);
    const point = solve(c);
    expect(point.amps[1]).toBe(0);
    expect(voltsAt(c, point.volts, 2)).toBe(0);
  });

  test("a filament lamp at its rated volts takes its rated current", () => {
    const c = circuitOf([
      { kind: "source", a: 1, b: 0, volts: 12, ohms: 1e-6 },
      { kind: "curve", a: 1, b: 0, curve: filament(12, 1.75) },
    ]);
    expect(solve(c).amps[1]).toBeCloseTo(1.75, 4);
  });
});

test("a constant draw whose ground is lost floats up to its supply and draws nothing", () => {
  const draw = { volts: [0, 5], amps: [0, 0.3], slopeBelow: 0, slopeAbove: 0 };
  const c = circuitOf([
    { kind: "source", a: 1, b: 0, volts: 12, ohms: 0.01 },
    { kind: "curve", a: 1, b: 2, curve: draw },
    { kind: "resistor", a: 2, b: 3, ohms: 1 },
  ]);
  const { volts, amps } = solve(c);
  expect(amps[1]).toBeCloseTo(0, 6);
  expect(voltsAt(c, volts, 3)).toBeCloseTo(12, 6);
});

describe("floating", () => {
  const parts: readonly TestElement[] = [
    { kind: "source", a: 1, b: 0, volts: 12, ohms: 0.01 },
    { kind: "resistor", a: 2, b: 3, ohms: 5 },
    { kind: "diode", a: 2, b: 1, drop: 0.7, ohms: 1 },
  ];
  test("two nodes joined to each other and to nothing else are held by nothing", () => {
    const c = circuitOf(parts);
    const network = networkOf(c, USUAL);
    const closed = new Uint8Array(c.elements.length).fill(1);
    const floats = floatingNodes(network, closed, operate(network.solvable, closed));
    expect([0, 1, 2, 3].map((n) => floats[c.nodeOf.get(`N.${n}`) ?? 0])).toEqual([0, 0, 1, 1]);
  });

  test.each([
    [900_000, 0],
    [1_100_000, 1],
  ])("held through %d ohm: %d", (ohms, expected) => {
    const c = circuitOf([...parts, { kind: "resistor", a: 3, b: 0, ohms }]);
    const network = networkOf(c, USUAL);
    const closed = new Uint8Array(c.elements.length).fill(1);
    expect(floatingNodes(network, closed, operate(network.solvable, closed))[c.nodeOf.get("N.3") ?? 0]).toBe(expected);
  });
});

const node = fc.integer({ min: 0, max: 12 });
// Milliohms beside megohms: the spread of a real loom.
const ohms = fc.double({ min: -4, max: 6, noNaN: true }).map((x) => 10 ** x);
const straight = fc.oneof(
  fc.record({ kind: fc.constant("resistor" as const), a: node, b: node, ohms }),
  fc.record({
    kind: fc.constant("source" as const),
    a: node,
    b: node,
    volts: fc.double({ min: -24, max: 24, noNaN: true }),
    ohms: fc.constant(0.02),
  }),
);
const curved = fc.record({
  kind: fc.constant("diode" as const),
  a: node,
  b: node,
  drop: fc.constant(0.7),
  ohms: fc.double({ min: 0.01, max: 5, noNaN: true }),
});
const notLoop = (e: { readonly a: number; readonly b: number }) => e.a !== e.b;
const linear = fc.array(straight.filter(notLoop), { minLength: 3, maxLength: 40 });
const draws = fc.record({
  kind: fc.constant("curve" as const),
  a: node,
  b: node,
  curve: fc
    .double({ min: 0.01, max: 3, noNaN: true })
    .map((i) => ({ volts: [0, 5], amps: [0, i], slopeBelow: 0, slopeAbove: 0 })),
});
const network = fc.array(
  fc
    .oneof({ weight: 3, arbitrary: straight }, { weight: 2, arbitrary: curved }, { weight: 1, arbitrary: draws })
    .filter(notLoop),
  { minLength: 3, maxLength: 40 },
);

describe("laws", () => {
  test("Kirchhoff: currents into every node sum to nothing", () => {
    fc.assert(
      fc.property(network, (list) => {
        const c = circuitOf(list);
        const { amps } = solve(c);
        const sums = new Float64Array(c.nodes.length);
        const largest = Math.max(1e-9, ...amps.map(Math.abs));
        c.elements.forEach((e, i) => {
          (sums[e.a] as number) -= amps[i] ?? 0;
          (sums[e.b] as number) += amps[i] ?? 0;
        });
        // The reference takes what is left: it holds too, since charge is kept.
        for (const s of sums) expect(Math.abs(s)).toBeLessThanOrEqual(Math.max(1e-6, 1e-8 * largest));
      }),
      { numRuns: 400, seed: 1 },
    );
  });

  test("power: what sources give is what the rest takes", () => {
    fc.assert(
      fc.property(network, (list) => {
        const c = circuitOf(list);
        const { volts, amps } = solve(c);
        let sum = 0;
        let turned = 0;
        c.elements.forEach((e, i) => {
          const p = ((volts[e.a] ?? 0) - (volts[e.b] ?? 0)) * (amps[i] ?? 0);
          sum += p;
          turned += Math.abs(p);
        });
        expect(Math.abs(sum)).toBeLessThanOrEqual(1e-6 + 1e-8 * turned);
      }),
      { numRuns: 400, seed: 2 },
    );
  });

  test("superposition: with straight elements, two sources give the sum of each alone", () => {
    fc.assert(
      fc.property(linear, (list) => {
        const sources = list.flatMap((e, i) => (e.kind === "source" ? [i] : []));
        const only = (keep: (i: number) => boolean) =>
          circuitOf(list.map((e, i) => (e.kind === "source" && !keep(i) ? { ...e, volts: 0 } : e)));
        const all = solve(only(() => true));
        const halves = [
          solve(only((i) => sources.indexOf(i) % 2 === 0)),
          solve(only((i) => sources.indexOf(i) % 2 === 1)),
        ];
        const largest = Math.max(1, ...all.amps.map(Math.abs), ...halves.flatMap((h) => [...h.amps].map(Math.abs)));
        all.amps.forEach((a, i) => {
          expect(Math.abs(a - (halves[0]?.amps[i] ?? 0) - (halves[1]?.amps[i] ?? 0))).toBeLessThanOrEqual(
            1e-8 * largest,
          );
        });
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  test("superposition with states frozen: diodes kept in the piece they are in", () => {
    fc.assert(
      fc.property(network, (list) => {
        const c = circuitOf(list);
        const { volts, amps } = solve(c);
        // A conducting diode is a source of its drop behind its ohms, a blocking one is open.
        const frozen = list.flatMap((e, i): TestElement[] => {
          if (e.kind !== "diode") return [e];
          const el = c.elements[i];
          const v = el === undefined ? 0 : (volts[el.a] ?? 0) - (volts[el.b] ?? 0);
          return v > e.drop ? [{ kind: "source", a: e.a, b: e.b, volts: e.drop, ohms: e.ohms }] : [];
        });
        if (frozen.length === 0) return;
        const straightened = solve(circuitOf(frozen));
        const kept = list.flatMap((e, i) => (e.kind === "diode" && (amps[i] ?? 0) === 0 ? [] : [i]));
        const largest = Math.max(1, ...amps.map(Math.abs));
        kept.forEach((i, k) => {
          expect(Math.abs((amps[i] ?? 0) - (straightened.amps[k] ?? 0))).toBeLessThanOrEqual(1e-7 * largest);
        });
      }),
      { numRuns: 300, seed: 4 },
    );
  });

  test("scaling: twice the volts of every source gives twice every current", () => {
    fc.assert(
      fc.property(linear, (list) => {
        const once = solve(circuitOf(list));
        const twice = solve(circuitOf(list.map((e) => (e.kind === "source" ? { ...e, volts: 2 * e.volts } : e))));
        const largest = Math.max(1, ...once.amps.map(Math.abs));
        once.amps.forEach((a, i) => {
          expect(Math.abs(2 * a - (twice.amps[i] ?? 0))).toBeLessThanOrEqual(1e-8 * largest);
        });
      }),
      { numRuns: 300, seed: 5 },
    );
  });

  test("a smaller resistance never takes less current from its one source", () => {
    fc.assert(
      fc.property(
        fc.array(
          straight.filter((e) => notLoop(e) && e.kind === "resistor"),
          { minLength: 3, maxLength: 30 },
        ),
        fc.nat(29),
        (list, pick) => {
          const source: TestElement = { kind: "source", a: 1, b: 0, volts: 12, ohms: 0.02 };
          const at = pick % list.length;
          const before = solve(circuitOf([source, ...list])).amps[0] ?? 0;
          const after =
            solve(
              circuitOf([
                source,
                ...list.map((e, i) => (i === at && e.kind === "resistor" ? { ...e, ohms: e.ohms / 2 } : e)),
              ]),
            ).amps[0] ?? 0;
          expect(-after).toBeGreaterThanOrEqual(-before - 1e-10 - 1e-9 * Math.abs(before));
        },
      ),
      { numRuns: 300, seed: 6 },
    );
  });
});
