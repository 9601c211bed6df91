import fc from "fast-check";
import { expect, test } from "vitest";
import { compile } from "../circuit/compile.ts";
import { operate } from "../solve/operate.ts";
import { anyLoom } from "../testing/random-loom.ts";
import { explore } from "./explore.ts";
import { machineOf, opened, pointOf } from "./machine.ts";
import { runsOf } from "./runs.ts";

/** States looked at of each loom, and elements opened one at a time. */
const STATES = 20;
const OPENED = 2;

test("an operating point that several states share is that of each, in every run and with anything open", () => {
  let states = 0;
  const shared = new Set<object>();
  fc.assert(
    fc.property(anyLoom, (loom) => {
      const circuit = compile(loom);
      for (const { patch } of runsOf(circuit).slice(0, 2)) {
        const whole = machineOf(circuit, patch);
        const { found } = explore(whole, { budget: 200 });
        for (const machine of [whole, ...[...Array(OPENED).keys()].map((i) => opened(whole, [i]))])
          for (const { state } of found.slice(0, STATES)) {
            const { closed, op } = pointOf(machine, state);
            const { volts, amps } = operate(machine.network.solvable, closed);
            expect(op.volts).toEqual(volts);
            expect(op.amps).toEqual(amps);
            states++;
            shared.add(op);
          }
      }
    }),
    { numRuns: 20, seed: 261127 },
  );
  // Else nothing was shared, and nothing compared.
  expect(states - shared.size).toBeGreaterThan(100);
});
