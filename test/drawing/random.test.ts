import { analyse, behaviour } from "@loomproof/analyzer";
import { layout, measure, scene } from "@loomproof/drawing";
import { type Loom, parse, resolve, sketch, write } from "@loomproof/netlist";
import fc from "fast-check";
import { expect, test } from "vitest";
import { bySet, hasWire, joinedIn, readBack } from "./read-back.ts";

// Looms that nobody would build: parts and wires thrown together. None of them may throw anything back.

const KINDS = {
  "G battery": {},
  "F protector": {},
  "S switch push": {},
  "S switch": {},
  "S key-switch": {},
  "K relay": {},
  "K relay break": {},
  "K relay changeover": {},
  "M motor pump": {},
  "M motor starter": {},
  "E lamp": {},
  "E heater": {},
  "V diode": {},
  "R resistor": { ohms: "10 ohm" },
  "XS splice": {},
  "XE ground-point": {},
} as const;
const MOST_SWITCHES = 3;

/** Parts, then wires between any two of their terminals. */
const anyLoom = fc
  .array(fc.constantFrom(...(Object.keys(KINDS) as (keyof typeof KINDS)[])), { minLength: 3, maxLength: 12 })
  .map((kinds) => {
    let switches = 0;
    const kept = kinds.filter((k) => !k.startsWith("S ") || ++switches <= MOST_SWITCHES);
    const named = kept.map((k, i) => [k.replace(" ", `${i + 2} `), KINDS[k]] as const);
    return Object.fromEntries([["G1 battery", {}] as const, ...named]);
  })
  .chain((parts) => {
    const { parts: bare } = resolve(sketch({ parts, wires: [] }));
    const terminals = bare.flatMap((p) => p.terminals.map((t) => `${p.id}.${t.name}`));
    const pair = fc.tuple(fc.constantFrom(...terminals), fc.constantFrom(...terminals)).filter(([a, b]) => a !== b);
    return fc
      .array(pair, { minLength: 2, maxLength: terminals.length })
      .map((pairs): Loom => sketch({ parts, wires: pairs.map((p) => p.join(" ")) }));
  });

test("any loom is written and read back, analysed and drawn as what it is", () => {
  fc.assert(
    fc.property(anyLoom, (loom) => {
      const read = parse(write(loom));
      expect(read.ok).toBe(true);
      expect(analyse(loom).coverage.complete).toBe(true);
      behaviour(loom);
      const resolved = resolve(loom);
      const sheet = scene(resolved, layout(resolved));
      const { symbolOnSymbol, labelOnLabel, labelOnWire, labelOnSymbol, wireOnWire } = measure(sheet);
      expect({ symbolOnSymbol, labelOnLabel, labelOnWire, labelOnSymbol }).toEqual({
        symbolOnSymbol: 0,
        labelOnLabel: 0,
        labelOnWire: 0,
        labelOnSymbol: 0,
      });
      // Where wires had to be drawn over each other, the sheet is crowded and says less.
      if (wireOnWire === 0) expect(bySet(readBack(sheet).filter(hasWire))).toEqual(bySet(joinedIn(resolved, sheet)));
    }),
    { seed: 1, numRuns: 60, endOnFailure: true },
  );
}, 120_000);
