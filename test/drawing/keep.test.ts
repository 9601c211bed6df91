import { drawingOf, layout, measure, type Placed, scene } from "@loomproof/drawing";
import { type Loom, loomSchema, type ResolvedLoom, resolve } from "@loomproof/netlist";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clean } from "./clean.ts";
import { inventedMachine, inventedTractor } from "./invented.ts";
import { bySet, hasWire, joinedIn, readBack } from "./read-back.ts";

/** Of processor time: other tests run beside. */
const SLOWEST_MS = 1000;
/** Of the old wires, at least so many keep their routes. */
const KEPT = 0.99;

interface Before {
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  readonly placed: Placed;
}
const drawn = (loom: Loom): Before => {
  const resolved = resolve(loom);
  return { loom, resolved, placed: layout(resolved) };
};
const tractor = drawn(inventedTractor());
const machine = drawn(inventedMachine(5));

const NEW_PARTS = [
  { part: { id: "E90", is: "lamp" }, terminals: ["a", "b"] },
  { part: { id: "S90", is: "switch" }, terminals: ["1", "2"] },
  { part: { id: "M90", is: "motor", kind: "pump" }, terminals: ["+", "-"] },
  { part: { id: "R90", is: "resistor", ohms: "1 kohm" }, terminals: ["a", "b"] },
  { part: { id: "K90", is: "relay" }, terminals: ["86", "85", "30"] },
] as const;

/** One part more, each of its terminals wired to something that was there. */
const addition = ({ loom, resolved }: Before) => {
  const old = resolved.parts.flatMap((p) => p.terminals.map((t) => `${p.id}.${t.name}`));
  return fc.constantFrom(...NEW_PARTS).chain(({ part, terminals }) =>
    fc.tuple(...terminals.map(() => fc.constantFrom(...old))).map((ends): Loom => {
      const wires = terminals.map((t, i) => ({ id: `W90${i}`, from: `${part.id}.${t}`, to: ends[i], size: "1 mm2" }));
      return loomSchema.parse({ ...loom, parts: [...loom.parts, part], wires: [...loom.wires, ...wires] });
    }),
  );
};

function still(old: Placed, now: Placed): { readonly parts: number; readonly wires: number } {
  const parts = [...old.frame.boxes].filter(([id, b]) => {
    const n = now.frame.boxes.get(id);
    return n?.x === b.x && n.y === b.y && n.box.mirrored === b.box.mirrored;
  });
  const wires = [...old.routed.wires].filter(
    ([id, p]) => JSON.stringify(now.routed.wires.get(id)) === JSON.stringify(p),
  );
  return { parts: parts.length / old.frame.boxes.size, wires: wires.length / old.routed.wires.size };
}

describe.each([
  ["a tractor in one piece", tractor],
  ["a machine in zones", machine],
])("a drawing that is kept: %s", (_, before) => {
  const { loom: whole, resolved: unchanged, placed: old } = before;

  test("a part more: everything old stays, the new part stands clear", () => {
    fc.assert(
      fc.property(addition(before), (loom) => {
        const resolved = resolve(loom);
        const start = process.cpuUsage();
        const now = layout(resolved, { drawing: drawingOf(old) });
        const { user, system } = process.cpuUsage(start);
        expect((user + system) / 1000).toBeLessThan(SLOWEST_MS);
        expect(still(old, now).parts).toBe(1);
        expect(still(old, now).wires).toBeGreaterThanOrEqual(KEPT);
        const sheet = scene(resolved, now);
        expect(measure(sheet)).toMatchObject(clean);
        expect(bySet(readBack(sheet).filter(hasWire))).toEqual(bySet(joinedIn(resolved, sheet)));
      }),
      { seed: 1, numRuns: 40, endOnFailure: true },
    );
  });

  test("nothing changed: nothing moves", () => {
    const now = layout(unchanged, { drawing: drawingOf(old) });
    expect(still(old, now)).toEqual({ parts: 1, wires: 1 });
  });

  test("a part less: everything else stays", () => {
    const wires = whole.wires.filter((w) => !w.from.startsWith("E6.") && !w.to.startsWith("E6."));
    const loom = resolve({ ...whole, parts: whole.parts.filter((p) => p.id !== "E6"), wires });
    const now = layout(loom, { drawing: drawingOf(old) });
    expect(still(old, now).parts).toBeCloseTo(1 - 1 / old.frame.boxes.size, 6);
    expect(measure(scene(loom, now))).toMatchObject(clean);
  });
});
