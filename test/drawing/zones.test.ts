import { layout, scene, toSvg } from "@loomproof/drawing";
import { resolve } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { expectClean, expectNoWorse } from "./clean.ts";
import { inventedMachine, inventedTractor } from "./invented.ts";
import { bySet, hasWire, joinedIn, readBack } from "./read-back.ts";

/** Measured in the layout study on an invented loom of 120 parts and 261 wires, in zones, best of four starts. */
const CEILING = { crossings: 74, bends: 84 };

const machine = resolve(inventedMachine(6));
const looms = [
  ["a machine of 113 parts", machine, layout(machine)],
  ["a tractor cut into zones", resolve(inventedTractor()), layout(resolve(inventedTractor()), { zonesFrom: 30 })],
] as const;

describe.each(looms)("%s", (_, loom, placed) => {
  const sheet = scene(loom, placed);

  test("nothing lies on anything else, every number is near", () => {
    expectClean(sheet);
  });

  test("wires cross and turn no more than in the study", () => {
    expectNoWorse(sheet, CEILING);
  });

  test("what a reader sees joined is what is joined, through flags and joints of the same name", () => {
    expect(bySet(readBack(sheet).filter(hasWire))).toEqual(bySet(joinedIn(loom, sheet)));
    expect(sheet.symbols.some((s) => s.id.endsWith(" tag"))).toBe(true);
  });

  test("a flag left out, and its wire is cut", () => {
    const flag = sheet.symbols.find((s) => s.id.endsWith(" tag"));
    const without = { ...sheet, symbols: sheet.symbols.filter((s) => s !== flag) };
    expect(bySet(readBack(without).filter(hasWire))).not.toEqual(bySet(joinedIn(loom, sheet)));
  });

  test("zones stand apart, and all of the drawing stands in them", () => {
    const rooms = sheet.zones.map((z) => z.room);
    expect(rooms.length).toBeGreaterThan(2);
    rooms.forEach((p, i) => {
      for (const q of rooms.slice(i + 1))
        expect(p.x0 >= q.x1 || q.x0 >= p.x1 || p.y0 >= q.y1 || q.y0 >= p.y1).toBe(true);
    });
    const isInside = (x: number, y: number) => rooms.some((r) => x > r.x0 && x < r.x1 && y > r.y0 && y < r.y1);
    expect(sheet.wires.flatMap((w) => w.points).filter((p) => !isInside(p.x, p.y))).toEqual([]);
    expect(sheet.texts.filter((t) => !isInside(t.room.x0, t.room.y0) || !isInside(t.room.x1, t.room.y1))).toEqual([]);
  });
});

test("the same machine gives the same drawing", () => {
  const svg = () => toSvg(scene(machine, layout(machine)), { theme: "light" });
  expect(svg()).toBe(svg());
});
