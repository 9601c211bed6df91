// Outside checks of the transient: closed forms of first-order circuits (any textbook of electrical engineering), and a
// coil's decay through its diode against the Runge–Kutta solver (RK45) of a general-purpose library (mathjs,
// Apache-2.0). The differential equation is written down here once more, from the loom's values alone.

import { type CoilValues, play, type Timeline } from "@loomproof/analyzer";
import { sketch } from "@loomproof/netlist";
import * as mathjs from "mathjs";
import { describe, expect, test } from "vitest";

// The library's types leave this function out.
interface Solver {
  readonly solveODE: (
    f: (t: number, y: readonly number[]) => number[],
    span: readonly [number, number],
    start: readonly number[],
    options: { readonly tol: number; readonly maxStep: number },
  ) => { readonly t: readonly number[]; readonly y: readonly (readonly number[])[] };
}
const { solveODE } = mathjs as unknown as Solver;

const COIL_OHMS = 100;
const COIL: CoilValues = {
  openSeconds: 0.005,
  closedSeconds: 0.005,
  operateDeadSeconds: 0.002,
  releaseDeadSeconds: 0.001,
  transitSeconds: 0.001,
};
/** Losses of the core lie beside the inductance, 25 coil resistances (from memory). */
const LOSS_OHMS = 25 * COIL_OHMS;
const HENRIES = COIL.closedSeconds * COIL_OHMS;

const battery = { volts: "12 V", ohms: "0.001 ohm" };

function played(loom: Parameters<typeof play>[0], moves: string): Timeline {
  const result = play(loom, moves, { coils: { K1: COIL } });
  if (!result.ok) throw new Error(`${result.problem.found}: ${result.problem.expected}`);
  return result.timeline;
}

const relayLoom = (suppression: unknown) =>
  sketch({
    parts: {
      "G1 battery": battery,
      "S1 switch": {},
      "K1 relay": { coil: `${COIL_OHMS} ohm`, suppression },
    },
    wires: ["G1.+ S1.1", "S1.2 K1.86", "K1.85 G1.-"],
  });

/** Milliseconds and values from a moment on, the value before an event left out. */
function since(t: Timeline, column: readonly (number | null)[], from: number): readonly (readonly [number, number])[] {
  const first = t.traces.ms.lastIndexOf(from);
  return t.traces.ms.slice(first).map((ms, i) => [(ms - from) / 1000, column[first + i] ?? Number.NaN] as const);
}

const pulling = (t: Timeline): readonly number[] => t.traces.coils[0]?.amps ?? [];
const largest = (list: readonly number[]): number => list.reduce((a, b) => Math.max(a, b), 0);

describe("closed forms", () => {
  test("a coil switched on: I (1 − exp(−t/τ)), τ lengthened by the losses of the core", () => {
    const t = played(relayLoom("none"), "S1=closed");
    // Wires of 1 m and the contact add some hundredths of an ohm.
    const tau = HENRIES * (1 / COIL_OHMS + 1 / LOSS_OHMS);
    const amps = 12 / COIL_OHMS;
    const off = since(t, pulling(t), 0).map(([s, i]) => Math.abs(i - amps * (1 - Math.exp(-s / tau))));
    expect(off.length).toBeGreaterThan(20);
    expect(largest(off) / amps).toBeLessThan(1.5e-3);
  });

  test("a coil with a resistor across it, switched off: I exp(−t/τ)", () => {
    const t = played(relayLoom({ resistor: "220 ohm" }), "S1=closed, rest S1=open");
    const from = t.events.find((e) => e.kind === "stand" && e.to === "open")?.ms ?? Number.NaN;
    const tau = HENRIES * (1 / LOSS_OHMS + 1 / (COIL_OHMS + 220));
    const samples = since(t, pulling(t), from);
    const amps = samples[0]?.[1] ?? Number.NaN;
    const off = samples.map(([s, i]) => Math.abs(i - amps * Math.exp(-s / tau)));
    expect(off.length).toBeGreaterThan(20);
    expect(largest(off) / amps).toBeLessThan(1.5e-3);
  });

  test("a capacitor charged through a resistor: V (1 − exp(−t/RC))", () => {
    const loom = sketch({
      parts: {
        "G1 battery": battery,
        "S1 switch": {},
        "R1 resistor": { ohms: "1 kohm" },
        "C1 capacitor": { farads: "10 uF", leak: "100 Mohm" },
      },
      wires: ["G1.+ S1.1", "S1.2 R1.a", "R1.b C1.+", "C1.- G1.-"],
    });
    const t = played(loom, "S1=closed");
    const tau = 1000 * 10e-6;
    const off = since(t, t.traces.volts["C1.+"] ?? [], 0).map(([s, v]) => Math.abs(v - 12 * (1 - Math.exp(-s / tau))));
    expect(off.length).toBeGreaterThan(20);
    expect(largest(off) / 12).toBeLessThan(1.5e-3);
  });
});

describe("a coil dying through its diode against RK45 of a general-purpose library", () => {
  test.each([
    ["diode", { diode: "85>86" }, 0],
    ["diode and 15 V zener", { zener: "15 V" }, 15],
  ])("%s: every sample within 0.2 % of the current before", (_, suppression, zenerVolts) => {
    const t = played(relayLoom(suppression), "S1=closed, rest S1=open");
    const from = t.events.find((e) => e.kind === "stand" && e.to === "open")?.ms ?? Number.NaN;
    const samples = since(t, pulling(t), from).filter(([s]) => s <= 0.015);
    const start = samples[0]?.[1] ?? Number.NaN;
    // The house's diode: 0.6 V + 2 ohm up to 68.6 mA, then 0.72 V + 0.25 ohm; the zener has 1 ohm and stands behind one.
    const drop = (i: number): number =>
      (i < 0.12 / 1.75 ? 0.6 + 2 * i : 0.72 + 0.25 * i) + (zenerVolts > 0 ? zenerVolts + i : 0);
    /** Volts over the inductance: the loop current i and the core's losses share the pulling current x. */
    const overInductance = (x: number): number => {
      if (x <= 0) return 0;
      // i + (drop(i) + R i) / loss = x rises with i: halve.
      let [low, high] = [0, x];
      for (let k = 0; k < 60; k++) {
        const i = (low + high) / 2;
        if (i + (drop(i) + COIL_OHMS * i) / LOSS_OHMS > x) high = i;
        else low = i;
      }
      return low > 1e-12 ? -(drop(low) + COIL_OHMS * low) : -LOSS_OHMS * x;
    };
    const ode = solveODE((_s, [x = 0]) => [overInductance(x) / HENRIES], [0, 0.015], [start], {
      tol: 1e-9,
      maxStep: 2e-5,
    });
    const at = (s: number): number => {
      const k = ode.t.findIndex((x) => x >= s);
      const [t0, t1, y0, y1] = [ode.t[k - 1] ?? 0, ode.t[k] ?? 0, ode.y[k - 1]?.[0] ?? start, ode.y[k]?.[0] ?? start];
      return t1 === t0 ? y1 : y0 + ((s - t0) / (t1 - t0)) * (y1 - y0);
    };
    expect(samples.length).toBeGreaterThan(20);
    for (const [s, i] of samples)
      expect(Math.abs(i - at(s)) / start, `at ${(1000 * s).toFixed(3)} ms`).toBeLessThan(2e-3);
  });
});
