import { layout, scene, toSvg } from "@loomproof/drawing";
import { type Loom, resolve } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { expectClean, expectNoWorse } from "./clean.ts";
import { inventedTractor } from "./invented.ts";
import { bySet, hasWire, joinedIn, readBack } from "./read-back.ts";

/** Measured in the layout study on an invented loom of 47 parts and 109 wires, drawn in one piece, best of six starts. */
const CEILING = { crossings: 49, bends: 78 };

const tractor = inventedTractor();
const loom = resolve(tractor);
const sheet = scene(loom, layout(loom));

/** The same loom with its lists written in another order. */
const shuffled = ({ parts, wires, ...rest }: Loom): Loom => {
  const turned = <T>(list: readonly T[]): T[] => [...list.slice(17), ...list.slice(0, 17).reverse()];
  return { ...rest, parts: turned(parts), wires: turned(wires) };
};

describe("a tractor", () => {
  test("is as big as it says", () => {
    const count = (family: string) => loom.parts.filter((p) => p.family === family).length;
    expect(loom.parts.length - count("splice") - count("ground-point")).toBe(53);
    expect([loom.wires.length, count("protector"), count("relay")]).toEqual([110, 9, 9]);
    expect(loom.parts.find((p) => p.id === "A1")?.terminals.length).toBe(25);
  });

  test("nothing lies on anything else, every number is near", () => {
    expectClean(sheet);
  });

  test("wires cross and turn no more than in the study", () => {
    expectNoWorse(sheet, CEILING);
  });

  test("what a reader sees joined is what is joined", () => {
    expect(bySet(readBack(sheet).filter(hasWire))).toEqual(bySet(joinedIn(loom, sheet)));
  });

  test("the order of the file does not show in the drawing", () => {
    const other = resolve(shuffled(tractor));
    expect(toSvg(scene(other, layout(other)), { theme: "light" })).toBe(toSvg(sheet, { theme: "light" }));
  });

  test("like parts on the same joint stand in the order of their designations", () => {
    const at = (id: string) => sheet.symbols.find((s) => s.id === id)?.x ?? 0;
    for (const group of [
      ["Y1", "Y2", "Y3"],
      ["E1", "E2", "E3"],
    ]) {
      const xs = group.map(at);
      expect(xs).toEqual(xs.toSorted((a, b) => a - b));
    }
  });
});
