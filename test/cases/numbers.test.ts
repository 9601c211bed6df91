import { type Reading, walk } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import type { Expected } from "./expected.ts";
import { readExpected, readLoom } from "./score.ts";

// The circuits were solved once, elsewhere, by a program that is not ours (README beside). Each is walked here step by
// step, and every volt, every amp and every relay and load must come out the same.

/** They neglect the resistor across a coil, which is a real path here. */
const unsuppressed = (loom: Loom): Loom => ({
  ...loom,
  parts: loom.parts.map((p) => (p.is === "relay" ? { ...p, suppression: undefined } : p)),
});

const RELATIVE = 0.01;
const VOLTS = 0.03;
const AMPS = 0.02;
const isNear = (v: number, wanted: number, absolute: number) =>
  Math.abs(v - wanted) <= Math.max(absolute, RELATIVE * Math.abs(wanted));

/** Amps into a part by the wires on a terminal. */
function ampsInto(loom: Loom, reading: Reading, terminal: string): number {
  return loom.wires.reduce(
    (sum, w) => sum + (reading.amps[w.id] ?? 0) * (Number(w.to === terminal) - Number(w.from === terminal)),
    0,
  );
}

/** What a reading says otherwise than the step; nothing where both agree. */
function differences(loom: Loom, step: Expected["steps"][number], reading: Reading): readonly string[] {
  const out: string[] = [];
  for (const [pair, wanted] of Object.entries(step.volts)) {
    const [a, b] = pair.split(":").map((t) => reading.volts[t]);
    if (a === undefined || b === undefined) throw new Error(`${pair}: no such terminals`);
    // A meter shows nothing where a lead meets what nothing holds.
    const volts = a === null || b === null ? 0 : a - b;
    if (!isNear(volts, wanted, VOLTS)) out.push(`${pair} ${volts.toFixed(3)} V, not ${wanted} V`);
  }
  for (const [id, wanted] of Object.entries(step.amps)) {
    const part = loom.parts.find((p) => p.id === id);
    const amps = part?.is === "battery" ? -ampsInto(loom, reading, `${id}.+`) : ampsInto(loom, reading, `${id}.a`);
    if (!isNear(amps, wanted, AMPS)) out.push(`${id} ${amps.toFixed(3)} A, not ${wanted} A`);
  }
  for (const [id, wanted] of Object.entries(step.states)) {
    const is = loom.parts.find((p) => p.id === id)?.is;
    const stands = is === "relay" ? reading.relaysIn.includes(id) : reading.on.includes(id);
    if ((wanted === "on" && !stands && is !== undefined) || (wanted === "off" && stands))
      out.push(`${id} not ${wanted}`);
  }
  return out;
}

const steady = readExpected().filter((e) => e.steps.every((s) => s.oscillates !== true));

describe("volts, amps and states of every step", () => {
  test("there are many to compare", () => {
    const numbers = steady.flatMap((e) => e.steps.flatMap((s) => [...Object.keys(s.volts), ...Object.keys(s.amps)]));
    expect(numbers.length).toBeGreaterThan(1000);
  });

  test.each(steady.map((e) => [e.id, e] as const))("%s", (id, expected) => {
    const loom = unsuppressed(readLoom(id));
    const walked = walk(loom, [expected.start, ...expected.steps.map((s) => s.set)]).slice(1);
    const told = expected.steps.flatMap((step, i) => {
      const readings = walked[i]?.readings ?? [];
      expect(readings.length, `step ${i + 1}`).toBeGreaterThan(0);
      return readings.flatMap((r) => differences(loom, step, r)).map((d) => `step ${i + 1}: ${d}`);
    });
    expect(told).toEqual([]);
  });
});
