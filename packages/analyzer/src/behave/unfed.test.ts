import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compile } from "../circuit/compile.ts";
import { anyLoom } from "../testing/random-loom.ts";
import { loadProbe } from "./bay.ts";
import { byIslands } from "./decide.ts";
import { explore } from "./explore.ts";
import { pointAt, probed } from "./island.ts";
import { type IslandView, islandAt, seenIn } from "./look.ts";
import { machineOf } from "./machine.ts";
import { ALL_OPEN, everyWay } from "./mixture.ts";
import { runsOf } from "./runs.ts";

describe("an island without a source", () => {
  test("is nowhere at more volts than there are between the ends of its rim", () => {
    let looked = 0;
    fc.assert(
      fc.property(anyLoom, (loom) => {
        const circuit = compile(loom);
        const [run] = runsOf(circuit);
        if (run === undefined) return;
        const machine = byIslands(machineOf(circuit, run.patch));
        const view = machine.view as IslandView;
        for (const { state } of explore(machine).found.slice(0, 8))
          circuit.loads.forEach((_, index) => {
            const probe = loadProbe(circuit, index);
            const island = islandAt(machine, seenIn(machine, view, state, view), probe);
            if (island === undefined || !Number.isFinite(island.drop)) return;
            if (!probe.elements.every((i) => island.bay.shape.elementAt.has(i))) return;
            for (const way of everyWay(island.bay.undecided.length).slice(0, 4))
              for (let corner = ALL_OPEN; corner < Math.min(4, island.corners.count); corner++) {
                const { volts } = probed(machine, island, pointAt(machine, island, way, corner), corner, probe);
                for (const v of volts) expect(Math.abs(v)).toBeLessThanOrEqual(island.drop + 1e-6);
                looked++;
              }
          });
      }),
      { numRuns: 25, seed: 261126 },
    );
    expect(looked).toBeGreaterThan(80);
  });
});
