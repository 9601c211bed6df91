import {
  addPart,
  addWire,
  type Loom,
  removePart,
  removeWire,
  setTitle,
  setValue,
  sketch,
  write,
} from "@loomproof/netlist";
import fc from "fast-check";
import { expect, test } from "vitest";
import { begun, edited, type History, redone, replayed, stepsOf, undone } from "./history.ts";

const base: Loom = {
  ...sketch({
    parts: { "G1 battery": {}, "F1 protector": { rated: "10 A" }, "E1 lamp": { label: "Lamp" } },
    wires: ["G1.+ F1.a", "F1.b E1.a", "E1.b G1.-"],
  }),
  title: "Lamp",
  drawing: { routes: { W2: [[100, 80]] } },
};

/** One random edit; some of them change nothing. */
function random(loom: Loom, n: number, what: number, a: number): Loom {
  const part = loom.parts[a % Math.max(1, loom.parts.length)];
  const wire = loom.wires[a % Math.max(1, loom.wires.length)];
  switch (what % 8) {
    case 0:
      return addPart(loom, { id: `X${n}`, is: "splice" });
    case 1:
      return wire === undefined ? loom : removeWire(loom, wire.id);
    case 2:
      return part === undefined ? loom : setValue(loom, part.id, "label", a % 3 === 0 ? undefined : `label ${a % 5}`);
    case 3:
      return setTitle(loom, a % 4 === 0 ? "" : `Title ${a % 4}`);
    case 4:
      return part?.is === "splice" ? addWire(loom, { id: `Y${n}`, from: `${part.id}.1`, to: "E1.a" }) : loom;
    case 5:
      return { ...loom, drawing: { places: {}, routes: a % 2 === 0 ? {} : { W1: [[a, 20]] } } };
    case 6: {
      const { drawing: _, ...rest } = loom;
      return rest;
    }
    default: {
      if (part === undefined) return loom;
      const { loom: rest, loose } = removePart(loom, part.id);
      return loose.reduce(removeWire, rest);
    }
  }
}

const moves = fc.array(
  fc.record({ kind: fc.constantFrom("edit", "edit", "undo", "redo"), what: fc.nat(99), a: fc.nat(99) }),
  {
    minLength: 60,
    maxLength: 60,
  },
);

test("any mixture of edits, undo and redo gives the same bytes at the same place, and so does a draft read back", () => {
  let undos = 0;
  fc.assert(
    fc.property(moves, (list) => {
      let history: History = begun(base);
      // What each place in the history was worth when it was made.
      let texts = [write(base)];
      for (const [n, { kind, what, a }] of list.entries()) {
        const at = history.past.length;
        if (kind === "edit") {
          const after = random(history.loom, n, what, a);
          const next = edited(history, `edit ${n}`, after);
          if (next === history) expect(write(after)).toBe(write(history.loom));
          else texts = [...texts.slice(0, at + 1), write(after)];
          history = next;
        } else {
          const next = kind === "undo" ? undone(history) : redone(history);
          if (kind === "undo" && next !== history) undos++;
          history = next;
        }
        expect(write(history.loom)).toBe(texts[history.past.length]);
        expect(history.past.length + history.future.length).toBe(texts.length - 1);
      }
      const again = replayed(base, structuredClone(stepsOf(history)), history.past.length);
      expect(again && write(again.loom)).toBe(write(history.loom));
      let back = history;
      while (back.past.length > 0) back = undone(back);
      expect(write(back.loom)).toBe(write(base));
      while (back.future.length > 0) back = redone(back);
      expect(write(back.loom)).toBe(texts.at(-1));
    }),
    { numRuns: 60, seed: 11 },
  );
  expect(undos).toBeGreaterThan(200);
});

test("a new edit forgets what was taken back; one that changes nothing is no step", () => {
  const one = edited(begun(base), "first", setTitle(base, "One"));
  const back = undone(one);
  expect(back.future.map((s) => s.says)).toEqual(["first"]);
  expect(edited(back, "the same", setTitle(back.loom, "Lamp"))).toBe(back);
  const other = edited(back, "second", setTitle(back.loom, "Two"));
  expect([other.past.map((s) => s.says), other.future]).toEqual([["second"], []]);
  expect([undone(begun(base)).past, redone(other)]).toEqual([[], other]);
});

test("steps of another loom are not made", () => {
  const one = edited(begun(base), "first", setTitle(base, "One"));
  expect(replayed(setTitle(base, "Another"), one.past, 1)).toBeUndefined();
});

test("a thousand steps are read back as quickly as the loom is made once", () => {
  let history = begun(base);
  for (let i = 0; i < 1000; i++) history = edited(history, `name ${i}`, setTitle(history.loom, `Name ${i}`));
  const once = timed(() => undone(history));
  const all = timed(() => replayed(base, history.past, 1000));
  // Made one by one it would be a thousand times.
  expect(all / once).toBeLessThan(100);
});

function timed(run: () => unknown): number {
  const times = Array.from({ length: 5 }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  return Math.min(...times);
}
