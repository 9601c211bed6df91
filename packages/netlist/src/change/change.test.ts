import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { addPart, removePart, setValue } from "../edit/parts.ts";
import { renamePart } from "../edit/rename.ts";
import { addWire, moveWireEnd, removeWire } from "../edit/wires.ts";
import { parse } from "../loom/parse.ts";
import type { Loom } from "../loom/schema.ts";
import { sketch } from "../loom/sketch.ts";
import { write } from "../loom/write.ts";
import { apply, change, invert } from "./change.ts";
import { merge } from "./merge.ts";

const base: Loom = {
  ...sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": { rated: "10 A" },
      "S1 switch": { stops: { open: ["K1"] } },
      "K1 relay make": {},
      "E1 lamp": { label: "Lamp" },
    },
    wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 K1.86", "K1.85 G1.-", "F1.b K1.30", "K1.87 E1.a", "E1.b G1.-"],
  }),
  accepted: [{ finding: "open-end:K1.87", reason: "spare" }],
  remarks: [{ id: "r1", on: { part: "K1" }, by: "helper", text: "Which make?" }],
  drawing: { places: { K1: { at: [100, 80] } } },
};

interface Pick {
  readonly what: number;
  readonly a: number;
  readonly b: number;
}

/** One random edit that keeps the loom a loom. */
function edited(loom: Loom, { what, a, b }: Pick, n: number): Loom {
  const part = loom.parts[a % Math.max(1, loom.parts.length)];
  const wire = loom.wires[a % Math.max(1, loom.wires.length)];
  switch (what % 7) {
    case 0:
      return addPart(loom, { id: `X${n}`, is: "splice" });
    case 1:
      return wire === undefined ? loom : removeWire(loom, wire.id);
    case 2:
      return part === undefined ? loom : setValue(loom, part.id, "label", b % 3 === 0 ? undefined : `label ${b}`);
    case 3:
      return part === undefined ? loom : renamePart(loom, part.id, `N${n}`);
    case 4: {
      const to = loom.parts[b % Math.max(1, loom.parts.length)];
      return to?.is === "splice" && part?.is === "splice" && part !== to
        ? addWire(loom, { id: `Y${n}`, from: `${part.id}.1`, to: `${to.id}.1` })
        : loom;
    }
    case 5: {
      const splice = loom.parts.filter((p) => p.is === "splice")[b % 5];
      return wire !== undefined && splice !== undefined ? moveWireEnd(loom, wire.id, "to", `${splice.id}.1`) : loom;
    }
    default: {
      if (part === undefined || loom.parts.length < 4) return loom;
      const { loom: rest, loose } = removePart(loom, part.id);
      return loose.reduce(removeWire, rest);
    }
  }
}

const picks = fc.array(fc.record({ what: fc.nat(1000), a: fc.nat(1000), b: fc.nat(1000) }), {
  minLength: 100,
  maxLength: 100,
});

describe("undo and redo", () => {
  test("2 000 random edits: undone one by one they give the same bytes, and done again too", () => {
    let edits = 0;
    fc.assert(
      fc.property(picks, (list) => {
        const looms = [base];
        for (const [n, pick] of list.entries()) looms.push(edited(looms[n] ?? base, pick, n));
        const steps = looms.slice(1).map((after, i) => change(looms[i] ?? base, after));
        edits += steps.length;
        let now = looms[looms.length - 1] ?? base;
        for (let i = steps.length - 1; i >= 0; i--) {
          const back = apply(now, invert(steps[i] ?? {}));
          if (!back.ok) throw new Error(`undo of ${i} is stale: ${back.stale}`);
          now = back.loom;
          expect(write(now)).toBe(write(looms[i] ?? base));
        }
        for (const [i, step] of steps.entries()) {
          const forth = apply(now, step);
          if (!forth.ok) throw new Error(`redo of ${i} is stale: ${forth.stale}`);
          now = forth.loom;
        }
        expect(write(now)).toBe(write(looms[looms.length - 1] ?? base));
      }),
      { numRuns: 20, seed: 7 },
    );
    expect(edits).toBe(2000);
  });

  test("a change fails, and says where, when the loom is not what it was made from", () => {
    const c = change(base, setValue(base, "F1", "rated", "15 A"));
    expect(apply(setValue(base, "F1", "rated", "20 A"), c)).toEqual({ ok: false, stale: ["parts/F1"] });
  });

  test("the order in which a switch passes its positions is a difference, the order of other keys is none", () => {
    const joined = (joins: Record<string, [string, string][]>) => setValue(base, "S1", "joins", joins);
    const [a, b] = [joined({ open: [], closed: [["1", "2"]] }), joined({ closed: [["1", "2"]], open: [] })];
    expect(Object.keys(change(a, b))).toEqual(["parts/S1"]);
    const turned = { ...base, parts: base.parts.map((p) => Object.fromEntries(Object.entries(p).reverse())) };
    expect(change(base, turned as unknown as Loom)).toEqual({});
  });

  test("what is written reads back as the same loom, after any edits", () => {
    fc.assert(
      fc.property(picks, (list) => {
        let loom = base;
        for (const [n, pick] of list.slice(0, 20).entries()) loom = edited(loom, pick, n);
        const read = parse(write(loom));
        if (read.ok) expect(write(read.loom)).toBe(write(loom));
        // A removed part may leave what names it (an accepted finding does not count); then parse says so.
        else expect(read.problems.length).toBeGreaterThan(0);
      }),
      { numRuns: 100, seed: 8 },
    );
  });
});

test("a rename rewrites everything that names the part, and back again", () => {
  const renamed = renamePart(base, "K1", "K9");
  expect(write(renamed)).not.toMatch(/"K1[".]/);
  expect(renamed.accepted[0]?.finding).toBe("open-end:K9.87");
  expect(write(renamePart(renamed, "K9", "K1"))).toBe(write(base));
});

describe("merge", () => {
  test("different items and different fields meet without a conflict", () => {
    const mine = setValue(base, "F1", "rated", "15 A");
    const theirs = setValue(setValue(base, "F1", "label", "Lights"), "E1", "watts", "21 W");
    const { loom, conflicts } = merge(base, mine, theirs);
    expect(conflicts).toEqual([]);
    expect(loom.parts.find((p) => p.id === "F1")).toMatchObject({ rated: "15 A", label: "Lights" });
    expect(loom.parts.find((p) => p.id === "E1")).toMatchObject({ watts: "21 W" });
  });

  test("the same field differently is a conflict; mine stays until decided", () => {
    const { loom, conflicts } = merge(
      base,
      setValue(base, "F1", "rated", "15 A"),
      setValue(base, "F1", "rated", "20 A"),
    );
    expect(conflicts).toEqual([
      { entry: "parts/F1", field: "rated", mine: "15 A", theirs: "20 A", why: "both changed it" },
    ]);
    expect(loom.parts.find((p) => p.id === "F1")).toMatchObject({ rated: "15 A" });
  });

  test("a wire whose part the other side removed is a conflict, never dropped", () => {
    const { loom: without, loose } = removePart(base, "E1");
    const theirs = loose.reduce(removeWire, without);
    const mine = addWire(base, { id: "W99", from: "K1.87", to: "E1.a" });
    const { loom, conflicts } = merge(base, mine, theirs);
    expect(conflicts.map((c) => c.why)).toContain("a wire goes to a part that was removed");
    expect(loom.parts.some((p) => p.id === "E1")).toBe(true);
    expect(loom.wires.some((w) => w.id === "W99")).toBe(true);
  });

  test("removed by one, changed by the other: a conflict, and the change is kept", () => {
    const theirs = { ...base, remarks: [] };
    const mine = { ...base, remarks: base.remarks.map((r) => ({ ...r, state: "done" as const })) };
    const { loom, conflicts } = merge(base, mine, theirs);
    expect(conflicts.map((c) => c.why)).toEqual(["one changed it, the other removed it"]);
    expect(loom.remarks).toHaveLength(1);
  });

  test("a symbol moved by both: theirs wins, no conflict", () => {
    const at = (x: number): Loom => ({ ...base, drawing: { places: { K1: { at: [x, 80] } } } });
    const { loom, conflicts } = merge(base, at(200), at(300));
    expect(conflicts).toEqual([]);
    expect(loom.drawing?.places?.K1).toEqual({ at: [300, 80] });
  });
});
