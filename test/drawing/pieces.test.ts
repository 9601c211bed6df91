import { layout, pathMarks, scene } from "@loomproof/drawing";
import { resolve, sketch } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { expectClean } from "./clean.ts";
import { bySet, hasWire, joinedIn, readBack } from "./read-back.ts";

// A feed that goes through a plug, a lamp behind it whose return comes back through the same plug, and one lever with
// two contacts in circuits that have nothing to do with each other.
const loom = resolve(
  sketch({
    parts: {
      "G1 battery": {},
      "X1 connector": { label: "To the rear", cavities: ["1", "2", "3"] },
      "S1 switch": { positions: ["out", "in"], joins: { out: [["1", "2"]], in: [["3", "4"]] } },
      "E1 lamp": {},
      "E2 lamp": {},
      "XE1 ground-point": {},
    },
    wires: [
      "G1.- XE1.1",
      "G1.+ S1.1",
      "S1.2 X1.a1",
      "X1.b1 E1.a",
      "E1.b X1.b2",
      "X1.a2 XE1.1",
      "G1.+ S1.3",
      "S1.4 E2.a",
      "E2.b XE1.1",
    ],
  }),
);
const placed = layout(loom);
const sheet = scene(loom, placed);
const drawnAs = (id: string) => sheet.symbols.filter((s) => s.id === id);

describe("parts drawn in pieces", () => {
  test("nothing lies on anything else, and what a reader sees joined is what is joined", () => {
    expectClean(sheet);
    expect(bySet(readBack(sheet).filter(hasWire))).toEqual(bySet(joinedIn(loom, sheet)));
  });

  test("a plug has a symbol for each cavity that is wired, and bears its name once", () => {
    expect(drawnAs("X1").length).toBe(2);
    expect(sheet.texts.filter((t) => t.text === "X1").length).toBe(2);
    expect(sheet.texts.filter((t) => t.text === "To the rear").length).toBe(1);
    expect(sheet.texts.filter((t) => t.role === "pin" && /^[ab][123]$/.test(t.text)).length).toBe(4);
  });

  test("current goes down through feed and return", () => {
    const y = (terminal: string) => sheet.dots.find((d) => d.id === terminal)?.at.y ?? Number.NaN;
    const way = ["S1.1", "S1.2", "X1.a1", "X1.b1", "E1.a", "E1.b", "X1.b2", "X1.a2"].map(y);
    expect(way).toEqual(way.toSorted((a, b) => a - b));
  });

  test("a switch has a symbol for each pole, and each stands as its own contact does", () => {
    expect(drawnAs("S1").length).toBe(2);
    const strokes = drawnAs("S1").map((s) => JSON.stringify(s.strokes));
    expect(strokes[0]).not.toBe(strokes[1]);
  });

  test("of a plug only the cavity on a lit path is lit", () => {
    const path = ["S1.2", "X1.a1", "X1.b1", "E1.a"];
    const marks = pathMarks(loom, { path, volts: {}, ring: undefined, inputs: {}, partsIn: [], partsOn: [], also: [] });
    const lit = scene(loom, placed, marks);
    const dim = (id: string) => lit.symbols.filter((s) => s.id === id).map((s) => s.dim);
    expect(dim("X1").sort()).toEqual([false, true]);
    expect(dim("S1").sort()).toEqual([false, true]);
    expect(dim("E2")).toEqual([true]);
  });
});
