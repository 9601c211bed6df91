import { sketch } from "@loomproof/netlist";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { explore } from "../behave/explore.ts";
import { machineOf } from "../behave/machine.ts";
import { runsOf } from "../behave/runs.ts";
import type { Circuit } from "../circuit/circuit.ts";
import { compile } from "../circuit/compile.ts";
import { opening } from "../circuit/patch.ts";
import { anyLoom } from "../testing/random-loom.ts";
import { firstInSeries } from "./in-series.ts";

const wires = (circuit: Circuit): readonly number[] =>
  circuit.elements.flatMap((e, i) => (e.owner.kind === "wire" ? [i] : []));

describe("wires in series", () => {
  test("a fuse between two wires makes no difference, a load and a joint do", () => {
    const circuit = compile(
      sketch({
        parts: { "G1 battery": {}, "F1 protector": {}, "S1 switch": {}, "E1 lamp": {}, "E2 lamp": {}, "X1 splice": {} },
        wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 X1.1", "X1.1 E1.a", "X1.1 E2.a", "E1.b G1.-", "E2.b G1.-"],
      }),
    );
    const [first, ...others] = wires(circuit).map((w) => firstInSeries(circuit, w));
    // Battery, fuse, switch and the joint: the wire on the battery stands at a pole, that on its other side does not.
    expect(others.slice(0, 2)).toEqual([first, first]);
    expect(new Set([first, ...others.slice(2)]).size).toBe(5);
  });

  test("whichever of them is open, the loom can do the same", () => {
    let pairs = 0;
    fc.assert(
      fc.property(anyLoom, (loom) => {
        const circuit = compile(loom);
        const [run] = runsOf(circuit);
        if (run === undefined) return;
        const statesWithout = (wire: number): readonly string[] =>
          explore(machineOf(circuit, opening(run.patch, [wire]))).found.map((f) => f.state.key);
        const by = new Map<number, number>();
        for (const wire of wires(circuit)) {
          const first = firstInSeries(circuit, wire);
          const other = by.get(first);
          by.set(first, wire);
          if (other === undefined) continue;
          pairs++;
          expect(statesWithout(wire).toSorted()).toEqual(statesWithout(other).toSorted());
        }
      }),
      { numRuns: 20, seed: 261126 },
    );
    expect(pairs).toBeGreaterThan(10);
  });
});
