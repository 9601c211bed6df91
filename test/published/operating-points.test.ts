// Outside check: operating points of 200 random looms against the dense LU of a general-purpose library (mathjs,
// Apache-2.0). The nodal equations are written down here once more, straight from the loom's text, so that compiling
// and solving are both checked. Diodes: our answer says which conduct; the library solves with those, and each must
// then be on the right side of its knee.

import { walk } from "@loomproof/analyzer";
import { type Loom, loomSchema } from "@loomproof/netlist";
import { lusolve, type Matrix, matrix } from "mathjs";
import { expect, test } from "vitest";
import { seeded } from "../seeded.ts";

const LOOMS = 200;

interface Branch {
  readonly a: string;
  readonly b: string;
  readonly ohms: number;
  /** Volts of `a` over `b` with no current. */
  readonly emf: number;
}

interface Diode {
  readonly id: string;
  readonly drop: number;
  readonly ohms: number;
}

interface Made {
  readonly loom: Loom;
  readonly branches: readonly Branch[];
  readonly diodes: readonly Diode[];
}

/** An invented loom: one or two batteries, splices, resistors, heaters, diodes and wires between them. */
function makeLoom(seed: number): Made {
  const rnd = seeded(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(rnd() * list.length)] as T;
  const splices = Array.from({ length: 3 + Math.floor(rnd() * 8) }, (_, i) => `X${i + 1}`);
  const branches: Branch[] = [];
  const diodes: Diode[] = [];
  const wires: Record<string, unknown>[] = [];
  const wire = (from: string, to: string) => {
    const ohms = Number((10 ** (-3 + 3 * rnd())).toPrecision(4));
    wires.push({ id: `W${wires.length + 1}`, from, to, ohms: `${ohms} ohm` });
    branches.push({ a: from, b: to, ohms, emf: 0 });
  };
  const parts: Record<string, unknown>[] = splices.map((id) => ({ id, is: "splice" }));
  const two = (part: Record<string, unknown>, a: string, b: string) => {
    parts.push(part);
    wire(`${part.id}.${a}`, `${pick(splices)}.1`);
    wire(`${part.id}.${b}`, `${pick(splices)}.1`);
  };
  const batteries = rnd() < 0.3 ? 2 : 1;
  for (let i = 1; i <= batteries; i++) {
    const volts = Number((11 + 3 * rnd()).toFixed(3));
    two({ id: `G${i}`, is: "battery", volts: `${volts} V`, ohms: "0.01 ohm" }, "+", "-");
    branches.push({ a: `G${i}.+`, b: `G${i}.-`, ohms: 0.01, emf: volts });
  }
  const loads = 4 + Math.floor(rnd() * 10);
  for (let i = 1; i <= loads; i++) {
    const ohms = Number((10 ** (4 * rnd())).toPrecision(4));
    const is = rnd() < 0.5 ? "resistor" : "heater";
    two({ id: `R${i}`, is, ohms: `${ohms} ohm` }, "a", "b");
    branches.push({ a: `R${i}.a`, b: `R${i}.b`, ohms, emf: 0 });
  }
  for (let i = 1; i <= Math.floor(rnd() * 8); i++) {
    const diode = { id: `V${i}`, drop: 0.7, ohms: 0.1 };
    two({ id: diode.id, is: "diode", drop: "0.7 V", ohms: "0.1 ohm" }, "A", "K");
    diodes.push(diode);
  }
  for (let i = 0; i < splices.length; i++) wire(`${pick(splices)}.1`, `${splices[i]}.1`);
  const loom = loomSchema.parse({
    format: "loomproof/1",
    system: { supply: "fixed", reference: "G1.-" },
    parts,
    wires: wires.filter((w) => w.from !== w.to),
  });
  return { loom, branches: branches.filter((b) => b.a !== b.b), diodes };
}

/** Node volts by dense LU. Nodes that nothing ties to the reference are left out. */
function byLibrary(branches: readonly Branch[], reference: string): ReadonlyMap<string, number> {
  const tied = new Set([reference]);
  for (let grown = true; grown; ) {
    grown = false;
    for (const { a, b } of branches)
      if (tied.has(a) !== tied.has(b)) {
        tied.add(a).add(b);
        grown = true;
      }
  }
  const nodes = [...tied].filter((n) => n !== reference);
  const at = new Map(nodes.map((n, i) => [n, i]));
  const g = nodes.map(() => nodes.map(() => 0));
  const rhs = nodes.map(() => 0);
  const add = (i: number | undefined, j: number | undefined, x: number) => {
    if (i !== undefined && j !== undefined) (g[i] as number[])[j] = (g[i]?.[j] ?? 0) + x;
  };
  for (const { a, b, ohms, emf } of branches) {
    if (!tied.has(a)) continue;
    const [i, j] = [at.get(a), at.get(b)];
    add(i, i, 1 / ohms);
    add(j, j, 1 / ohms);
    add(i, j, -1 / ohms);
    add(j, i, -1 / ohms);
    if (i !== undefined) rhs[i] = (rhs[i] ?? 0) + emf / ohms;
    if (j !== undefined) rhs[j] = (rhs[j] ?? 0) - emf / ohms;
  }
  const solved = lusolve(matrix(g), rhs) as Matrix;
  const volts = (solved.toArray() as number[][]).map((row) => row[0] ?? 0);
  return new Map([[reference, 0], ...nodes.map((n, i) => [n, volts[i] ?? 0] as const)]);
}

test(`${LOOMS} random looms agree with the library to 1 µV`, () => {
  let compared = 0;
  let conducting = 0;
  for (let seed = 1; seed <= LOOMS; seed++) {
    const { loom, branches, diodes } = makeLoom(seed);
    const volts = walk(loom, [{}])[0]?.readings[0]?.volts ?? {};
    const over = (d: Diode) => (volts[`${d.id}.A`] ?? 0) - (volts[`${d.id}.K`] ?? 0);
    const on = diodes.filter((d) => over(d) > d.drop);
    conducting += on.length;
    const expected = byLibrary(
      [...branches, ...on.map((d) => ({ a: `${d.id}.A`, b: `${d.id}.K`, ohms: d.ohms, emf: d.drop }))],
      "G1.-",
    );
    for (const [node, v] of expected) {
      const ours = volts[node];
      if (ours === null || ours === undefined) continue;
      expect(Math.abs(ours - v), `seed ${seed}, ${node}`).toBeLessThan(1e-6);
      compared++;
    }
    for (const d of diodes) {
      const [a, k] = [expected.get(`${d.id}.A`), expected.get(`${d.id}.K`)];
      if (a === undefined || k === undefined) continue;
      const isOn = on.includes(d);
      expect(isOn ? a - k >= d.drop - 1e-6 : a - k <= d.drop + 1e-6, `seed ${seed}, ${d.id}`).toBe(true);
    }
  }
  // The check must have looked at something: thousands of nodes, and diodes that conduct.
  expect(compared).toBeGreaterThan(5000);
  expect(conducting).toBeGreaterThan(50);
});
