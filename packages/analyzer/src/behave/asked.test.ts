import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Circuit } from "../circuit/circuit.ts";
import { compile } from "../circuit/compile.ts";
import { anyLoom } from "../testing/random-loom.ts";
import { askedBy } from "./asked.ts";
import { askedWith, isAskedFor } from "./loads.ts";
import { MAYBE, NO, YES } from "./scope.ts";
import { topologyOf } from "./topology.ts";

// The reference tries every gate over the whole loom.

const isMovable = (circuit: Circuit, i: number): boolean => {
  const e = circuit.elements[i];
  return e?.class === "gate" || e?.class === "source";
};

/** Each gate and source open, closed, or either, by dice. */
const closedBy = (circuit: Circuit, dice: readonly number[]): Uint8Array =>
  Uint8Array.from(circuit.elements, (_, i) => (isMovable(circuit, i) ? (dice[i % dice.length] as number) : YES));

const taking = (closed: Uint8Array, is: number, but?: { readonly gate: number; readonly is: number }): Uint8Array =>
  closed.map((c, i) => (i === but?.gate ? but.is : c === MAYBE ? is : c));

const ways = fc.array(fc.constantFrom(NO, YES, MAYBE, MAYBE), { minLength: 7, maxLength: 31 });

describe("whether a load is asked for", () => {
  test("is told as by trying all gates open and all closed, and each alone decides that does so by itself", () => {
    let hanging = 0;
    fc.assert(
      fc.property(anyLoom, ways, (loom, dice) => {
        const circuit = compile(loom);
        const closed = closedBy(circuit, dice);
        const topology = topologyOf(circuit, dice.join(), closed);
        circuit.loads.forEach((load, index) => {
          const is = (taken: Uint8Array) => isAskedFor(circuit, askedWith(circuit, taken), load);
          const [least, most] = [is(taking(closed, NO)), is(taking(closed, YES))];
          const asked = askedBy(circuit, topology, index);
          if (typeof asked === "boolean") {
            expect([least, most]).toEqual([asked, asked]);
            return;
          }
          hanging++;
          expect([least, most]).toEqual([false, true]);
          const maybe = [...closed.keys()].filter((i) => closed[i] === MAYBE);
          const alone = maybe.filter(
            (gate) => is(taking(closed, NO, { gate, is: YES })) || !is(taking(closed, YES, { gate, is: NO })),
          );
          const told = [...asked].sort((x, y) => x - y);
          if (alone.length > 0) expect(told).toEqual(alone);
          else expect(is(closed.map((c, i) => (c === MAYBE ? (told.includes(i) ? 1 : 0) : c)))).toBe(true);
        });
      }),
      { numRuns: 120, seed: 261126 },
    );
    expect(hanging).toBeGreaterThan(100);
  });
});
