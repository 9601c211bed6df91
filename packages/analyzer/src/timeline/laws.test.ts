import { type Loom, loomSchema } from "@loomproof/netlist";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compile } from "../circuit/compile.ts";
import { scriptOf } from "../testing/agreement.ts";
import { anyLoom } from "../testing/random-loom.ts";
import { CHOICES } from "./choice.ts";
import type { Run, Sample } from "./happening.ts";
import { type Rig, rigOf, type Store } from "./rig.ts";
import { run } from "./run.ts";

// What must hold of any loom and any script, whatever the steps.

interface Played {
  readonly rig: Rig;
  readonly result: Run;
}

/**
 * The same loom with coils suppressed in every way, and capacitors from film to hold-up across joints. Their wires have ohms
 * enough that a charge takes longer than the first step after an event; what is faster is stepped over, and its power is
 * in no sample.
 */
function storing(loom: Loom, seed: number): Loom {
  const fitted = ["none", { diode: "85>86" }, { resistor: "330 ohm" }, { zener: "24 V" }] as const;
  const joints = loom.parts.filter((p) => p.is === "splice").map((p) => p.id);
  const farads = ["1 uF", "100 uF", "4700 uF"];
  const capacitors = farads.map((f, i) => ({ id: `C${i + 1}`, is: "capacitor" as const, farads: f }));
  const joint = (i: number) => joints[(seed + i) % joints.length] ?? "G1.-";
  const wires = capacitors.flatMap(({ id }, i) => [
    { id: `WC${i}p`, from: `${id}.+`, to: joint(i), ohms: "5 ohm" },
    { id: `WC${i}n`, from: `${id}.-`, to: i === 0 ? joint(i + 1) : "G1.-", ohms: "5 ohm" },
  ]);
  const parts = loom.parts.map((p, i) => (p.is === "relay" ? { ...p, suppression: fitted[(seed + i) % 4] } : p));
  return loomSchema.parse({ ...loom, parts: [...parts, ...capacitors], wires: [...loom.wires, ...wires] });
}

const played = (seed: number) =>
  anyLoom.map((loom): Played => {
    const circuit = compile(seed % 2 === 0 ? loom : storing(loom, seed));
    const rig = rigOf(circuit, { choice: "usual" });
    return { rig, result: run(rig, scriptOf(circuit, seed, 4), { choice: "usual", budget: 1500 }) };
  });

test("Kirchhoff at every sample: currents into every node sum to nothing", () => {
  let samples = 0;
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1000 }).chain(played), ({ rig: { network, circuit }, result }) => {
      for (const { moment } of result.samples) {
        samples++;
        const { amps } = moment.op;
        const sums = new Float64Array(circuit.nodes.length);
        let largest = 0;
        network.circuit.elements.forEach((e, i) => {
          const i0 = amps[i] ?? 0;
          largest = Math.max(largest, Math.abs(i0));
          (sums[e.a] as number) -= i0;
          (sums[e.b] as number) += i0;
        });
        const worst = sums.reduce((w, s) => Math.max(w, Math.abs(s)), 0);
        expect(worst).toBeLessThanOrEqual(Math.max(1e-6, 1e-8 * largest));
      }
    }),
    { numRuns: 60, seed: 20_261_126 },
  );
  expect(samples).toBeGreaterThan(1000);
});

test("a winding's current and a capacitor's volts never jump, whatever switches", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 1000 }).chain(played), ({ rig, result }) => {
      for (const [before, after] of pairs(result.samples))
        if (before.seconds === after.seconds)
          rig.stores.forEach((s, k) => {
            const jump = Math.abs((before.moment.x[k] as number) - (after.moment.x[k] as number));
            // What is as good as at rest is put there: a share of 1e-4.
            expect(jump / s.scale).toBeLessThanOrEqual(1e-4);
          });
    }),
    { numRuns: 60, seed: 20_261_127 },
  );
});

test("moves in the midst of anything: time never goes back, every value is a number, events are in their order", () => {
  const gaps = fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 12, maxLength: 12 });
  let events = 0;
  fc.assert(
    fc.property(anyLoom, gaps, fc.constantFrom(...CHOICES), (loom, ms, choice) => {
      const circuit = compile(storing(loom, ms[0] ?? 0));
      let at = 0;
      const script = scriptOf(circuit, ms[1] ?? 0, ms.length).map((m, k) => {
        at += (ms[k] ?? 0) / 1000;
        return { ...m, at };
      });
      const { samples, happenings } = run(rigOf(circuit, { choice }), script, { choice, budget: 600 });
      for (const [before, after] of pairs(samples)) expect(after.seconds).toBeGreaterThanOrEqual(before.seconds);
      for (const { moment } of samples) expect(moment.x.every(Number.isFinite)).toBe(true);
      // What crosses a threshold within a step is told after the step; events are found to 10 µs.
      const seconds = happenings.map((h) => h.seconds);
      for (const [k, s] of seconds.entries()) expect(s).toBeGreaterThan((seconds[k - 1] ?? 0) - 2e-5);
      events += seconds.length;
    }),
    { numRuns: 60, seed: 20_261_130 },
  );
  expect(events).toBeGreaterThan(1000);
});

describe("energy", () => {
  test("what goes into a winding is lost in its wire and its core, or stored, or has moved its armature", () => {
    let checked = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }).chain(played), ({ rig, result }) => {
        for (const [k, store] of rig.stores.entries()) {
          if (store.kind !== "winding") continue;
          const { into, lost, stored, moved } = windingEnergy(rig, result.samples, store, k);
          const scale = energyIn(store.closed, store.scale);
          if (lost > scale) checked++;
          expect(Math.abs(into - lost - stored - moved)).toBeLessThan(0.005 * Math.max(scale, lost));
        }
      }),
      { numRuns: 60, seed: 20_261_128 },
    );
    expect(checked).toBeGreaterThan(20);
  });

  test("what sources give is lost or stored", () => {
    let checked = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }).chain(played), ({ rig, result }) => {
        const { given, kept } = loomEnergy(rig, result.samples);
        if (given > 0.01) checked++;
        expect(Math.abs(given - kept)).toBeLessThan(0.005 * Math.max(0.01, Math.abs(given)));
      }),
      { numRuns: 60, seed: 20_261_129 },
    );
    expect(checked).toBeGreaterThan(20);
  });
});

const pairs = (samples: readonly Sample[]): readonly (readonly [Sample, Sample])[] =>
  samples.slice(1).map((after, i) => [samples[i] as Sample, after] as const);

/** Of henries and amps, or of farads and volts. */
const energyIn = (inertia: number, x: number): number => 0.5 * inertia * x * x;

/** The integral of a power over the samples, by trapezia. */
const integral = (samples: readonly Sample[], power: (s: Sample) => number): number =>
  pairs(samples).reduce((sum, [p, q]) => sum + 0.5 * (power(p) + power(q)) * (q.seconds - p.seconds), 0);

const voltsOver = ({ network }: Rig, { moment }: Sample, e: number): number =>
  (moment.op.volts[network.a[e] as number] ?? 0) - (moment.op.volts[network.b[e] as number] ?? 0);

type Winding = Extract<Store, { kind: "winding" }>;

const lossOf = (rig: Rig, s: Sample, w: Winding): number => {
  const amps = s.moment.op.amps[w.element] ?? 0;
  const core = voltsOver(rig, s, w.element) - w.ohms * amps;
  return w.ohms * amps * amps + (core * core) / w.lossOhms;
};

function windingEnergy(rig: Rig, samples: readonly Sample[], w: Winding, k: number) {
  const henries = (s: Sample) => (s.state.latches[w.latch] === 1 ? w.closed : w.open);
  const storedAt = (s: Sample) => energyIn(henries(s), s.moment.x[k] ?? 0);
  const [first, last] = [samples[0] as Sample, samples[samples.length - 1] as Sample];
  // The inductance follows the armature while the current holds still: what that takes comes from the movement.
  const moved = pairs(samples).reduce(
    (sum, [p, q]) => sum - (henries(p) === henries(q) ? 0 : energyIn(henries(q), q.moment.x[k] ?? 0) - storedAt(p)),
    0,
  );
  return {
    into: integral(samples, (s) => voltsOver(rig, s, w.element) * (s.moment.op.amps[w.element] ?? 0)),
    lost: integral(samples, (s) => lossOf(rig, s, w)),
    stored: storedAt(last) - storedAt(first),
    moved,
  };
}

/** Sources by their emf; the rest by ohms and curves, windings by what `windingEnergy` finds. */
function loomEnergy(rig: Rig, samples: readonly Sample[]) {
  const { circuit, network, storeOf } = rig;
  const isSource = (e: number) => circuit.elements[e]?.class === "source";
  const powerOf = (s: Sample, wanted: (e: number) => boolean) =>
    network.circuit.elements.reduce(
      (sum, _, e) => (wanted(e) ? sum + voltsOver(rig, s, e) * (s.moment.op.amps[e] ?? 0) : sum),
      0,
    );
  const given = -integral(samples, (s) => powerOf(s, isSource));
  const plain = integral(samples, (s) => powerOf(s, (e) => !isSource(e) && (storeOf[e] ?? -1) < 0));
  const [first, last] = [samples[0] as Sample, samples[samples.length - 1] as Sample];
  const stores = rig.stores.reduce((sum, store, k) => {
    if (store.kind === "capacitor") {
      const held = (s: Sample) => energyIn(store.farads, s.moment.x[k] ?? 0);
      const leaked = integral(samples, (s) => voltsOver(rig, s, store.element) ** 2 / store.ohms);
      return sum + leaked + held(last) - held(first);
    }
    const { lost, stored, moved } = windingEnergy(rig, samples, store, k);
    return sum + lost + stored + moved;
  }, 0);
  return { given, kept: plain + stores };
}
