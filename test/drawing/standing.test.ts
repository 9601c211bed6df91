import { readFileSync } from "node:fs";
import { behaviour, behaviourInSlices } from "@loomproof/analyzer";
import { layout, scene, standingMarks } from "@loomproof/drawing";
import { parse, resolve } from "@loomproof/netlist";
import { expect, test } from "vitest";

const read = parse(readFileSync(new URL("../../examples/fuel-feed.loom.json", import.meta.url), "utf8"));
if (!read.ok) throw new Error("the example is no loom");
const loom = resolve(read.loom);
const says: string[] = [];
const slices = behaviourInSlices(read.loom);
let next = slices.next();
for (; !next.done; next = slices.next()) says.push(next.value.says);
const { table, volts } = next.value;

test("in slices it is the whole table, with volts in every situation, and says what it looks at", () => {
  expect(table).toEqual(behaviour(read.loom, Number.POSITIVE_INFINITY));
  expect(volts.length).toBe(table.situations.length);
  expect(new Set(says).size).toBeGreaterThan(2);
});

test("a held situation: every wire has a sleeve, the held relays are drawn in, nothing drops back", () => {
  const at = table.situations.findIndex((s) => s.title === "Key off, after run: K2 and K3 still in");
  const state = { inputs: { S1: "off" }, partsIn: ["K2", "K3"], partsOn: ["M1"], volts: volts[at] ?? {}, ring: "M1" };
  const marks = standingMarks(loom, state);
  expect(marks.parts?.K2).toEqual({ isIn: true, isOn: false });
  expect(marks.parts?.S1).toMatchObject({ position: "off" });
  const sleeve = (wire: string) => marks.states?.[wire];
  const between = (a: string, b: string) =>
    loom.wires.find((w) => `${w.from.part}.${w.from.terminal}` === a && `${w.to.part}.${w.to.terminal}` === b)?.id ??
    "";
  // The pump is fed; the coil that holds K3 hangs between feed and ground; the battery's minus is at ground.
  expect(sleeve(between("K2.87", "M1.+"))).toBe("feed");
  expect(sleeve(between("XS3.1", "K3.86"))).toBe("between");
  expect(new Set(loom.wires.map((w) => sleeve(w.id)))).toEqual(new Set(["feed", "between", "ground", "float"]));
  const sheet = scene(loom, layout(loom), marks);
  expect([...sheet.wires, ...sheet.symbols].some((i) => i.dim)).toBe(false);
  expect(sheet.marks.map((m) => m.kind)).toEqual(["ring"]);
});

test("with the key off at first nothing behind it is at feed, and what nothing holds is said to float", () => {
  const [first = {}] = volts;
  expect(first["K3.87"]).toBeNull();
  expect(first["G1.-"]).toBe(0);
  expect(first["F1.a"]).toBeGreaterThan(12);
});
