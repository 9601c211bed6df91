import { readdirSync, readFileSync } from "node:fs";
import { analyse } from "@loomproof/analyzer";
import { layout, measure, pathMarks, type Scene, scene, toSvg } from "@loomproof/drawing";
import { type Loom, parse, type ResolvedLoom, resolve } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { exampleLoom, exampleNames } from "../examples/examples.ts";
import { clean, expectClean, expectNoWorse } from "./clean.ts";
import { bySet, hasWire, joinedIn, readBack } from "./read-back.ts";

const folder = new URL("../cases/looms/", import.meta.url);
const caseLooms = readdirSync(folder).map((file): readonly [string, Loom] => {
  const read = parse(readFileSync(new URL(file, folder), "utf8"));
  if (!read.ok) throw new Error(file);
  return [file.slice(0, 4), read.loom];
});
const looms = [...exampleNames.map((n): readonly [string, Loom] => [n, exampleLoom(n)]), ...caseLooms];

/** As measured, wires over bars counted too. The layout study had 49 and 78 for 109 wires: 62 and 99 for 139. */
const CEILINGS: Readonly<Record<string, { readonly crossings: number; readonly bends: number }>> = {
  "fuel-feed": { crossings: 7, bends: 24 },
  "fuel-feed-cured": { crossings: 3, bends: 24 },
  "marigold-first": { crossings: 25, bends: 50 },
  "marigold-cured": { crossings: 31, bends: 51 },
};

const drawn = (loom: ResolvedLoom): Scene => scene(loom, layout(loom));
describe.each(looms)("%s", (_, loom) => {
  const resolved = resolve(loom);
  const sheet = drawn(resolved);

  test("nothing lies on anything else, every wire has its number, no text is too small", () => {
    expectClean(sheet);
  });

  test("what a reader sees joined is what is joined", () => {
    expect(bySet(readBack(sheet).filter(hasWire))).toEqual(bySet(joinedIn(resolved, sheet)));
  });
});

describe.each(exampleNames)("%s", (name) => {
  const loom = resolve(exampleLoom(name));

  test("wires cross and turn seldom", () => {
    expectNoWorse(drawn(loom), CEILINGS[name] ?? { crossings: 12, bends: 0.75 * loom.wires.length });
  });

  test("the same loom gives the same drawing", () => {
    const svg = () => toSvg(drawn(loom), { theme: "light" });
    expect(svg()).toBe(svg());
  });

  test("lighting a path moves nothing and covers nothing", () => {
    const placed = layout(loom);
    const plain = scene(loom, placed);
    const { findings } = analyse(exampleLoom(name));
    const told = findings.filter((f) => f.severity !== "note");
    expect(told.length === 0 || told.some((f) => f.path.length > 1)).toBe(true);
    for (const { path, volts } of findings) {
      const marks = pathMarks(loom, { path, volts, ring: undefined, inputs: {}, partsIn: [], partsOn: [], also: [] });
      const lit = scene(loom, placed, marks);
      expect(lit.wires.map((w) => w.id)).toEqual(plain.wires.map((w) => w.id));
      expect(bySet(readBack(lit))).toEqual(bySet(readBack(plain)));
      expect(lit.symbols.map((s) => s.room)).toEqual(plain.symbols.map((s) => s.room));
      expect(measure(lit)).toMatchObject(clean);
    }
  });
});

describe("the counts and the reader can fail", () => {
  const loom = resolve(exampleLoom(exampleNames[0] ?? ""));
  const sheet = drawn(loom);
  const moved = <T extends { readonly id: string }>(list: readonly T[], how: (item: T) => T): readonly T[] =>
    list.map((item, i) => (i === 0 ? how(item) : item));

  test("a symbol on another, a text on another, a wire on another, a wire without its number", () => {
    const [, second] = sheet.symbols;
    const onAnother = { ...sheet, symbols: moved(sheet.symbols, (s) => ({ ...s, room: second?.room ?? s.room })) };
    expect(measure(onAnother).symbolOnSymbol).toBeGreaterThan(0);
    const narrow = { ...sheet, symbols: sheet.symbols.map((s) => ({ ...s, width: 10 })) };
    expect(measure(narrow).textOutOfSymbol).toBeGreaterThan(0);
    const texts = moved(sheet.texts, (t) => ({ ...t, room: sheet.texts[1]?.room ?? t.room }));
    expect(measure({ ...sheet, texts }).labelOnLabel).toBeGreaterThan(0);
    const wires = moved(sheet.wires, (w) => ({ ...w, points: sheet.wires[1]?.points ?? w.points }));
    expect(measure({ ...sheet, wires }).wireOnWire).toBeGreaterThan(0);
    expect(measure({ ...sheet, texts: sheet.texts.filter((t) => t.role !== "wire") }).unnumbered).toBe(
      sheet.wires.length,
    );
  });

  test("a wire led elsewhere, a dot left out", () => {
    const wanted = bySet(joinedIn(loom, sheet));
    const wires = moved(sheet.wires, (w) => ({ ...w, points: w.points.map((p) => ({ x: p.x + 30, y: p.y })) }));
    expect(bySet(readBack({ ...sheet, wires }).filter(hasWire))).not.toEqual(wanted);
    const joints = sheet.dots.filter((d) => d.kind === "joint");
    for (const joint of joints)
      expect(bySet(readBack({ ...sheet, dots: sheet.dots.filter((d) => d !== joint) }).filter(hasWire))).not.toEqual(
        wanted,
      );
  });
});

test("markup in a name stays text", () => {
  const loom = exampleLoom(exampleNames[0] ?? "");
  const hostile = `<script>alert("x")</script>&amp;'`;
  const parts = loom.parts.map((p) => ({ ...p, label: hostile }));
  const svg = toSvg(drawn(resolve({ ...loom, parts, title: hostile })), {
    theme: "dark",
    title: hostile,
    foot: hostile,
  });
  expect(svg).not.toContain("<script");
  expect(svg).toContain("&lt;script&gt;");
});
