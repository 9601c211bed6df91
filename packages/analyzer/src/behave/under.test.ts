import { readFileSync } from "node:fs";
import { parse } from "@loomproof/netlist";
import { expect, test } from "vitest";
import type { Circuit } from "../circuit/circuit.ts";
import { compile } from "../circuit/compile.ts";
import { viewed } from "./decide.ts";
import { movesFrom } from "./explore.ts";
import { exploreByScopes } from "./factor.ts";
import { machineOf } from "./machine.ts";
import { runsOf } from "./runs.ts";
import type { Scope } from "./scope.ts";
import { type State, withStand } from "./state.ts";
import { wantsOf } from "./wants.ts";

const examples = new URL("../../../../examples/", import.meta.url);

/** The states that begin when an input has moved. */
const afterMoves = (circuit: Circuit, s: State, scope: Scope | undefined): readonly State[] =>
  movesFrom(circuit, s, scope).map(({ start, passage }) =>
    passage === undefined ? start : withStand(start, passage.input, passage.stand),
  );

test("what a search asks of one inside it is what it would decide itself, at rest and after each move", () => {
  const read = parse(readFileSync(new URL("marigold-first.loom.json", examples), "utf8"));
  if (!read.ok) throw new Error("no loom");
  const circuit = compile(read.loom);
  let compared = 0;
  for (const run of runsOf(circuit)) {
    const base = machineOf(circuit, run.patch);
    const { searches, found } = exploreByScopes(base);
    for (const { machine, first, end } of searches) {
      if (machine.view?.under === undefined) continue;
      const alone = viewed(base, machine.view.scope);
      const quiet = found.slice(first, end).map((f) => f.state);
      const moved = quiet.flatMap((s) => afterMoves(circuit, s, machine.view?.scope));
      for (const state of [...quiet, ...moved]) {
        const own = wantsOf(alone, state);
        // Without what is known of latches outside, some of it may hang on them: then there is nothing to compare.
        if (alone.view?.missing.size === 0) {
          expect(wantsOf(machine, state)).toEqual(own);
          compared++;
        }
        alone.view?.missing.clear();
      }
    }
  }
  expect(compared).toBeGreaterThan(1000);
});
