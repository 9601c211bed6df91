import fc from "fast-check";
import { expect, test } from "vitest";
import { runsOf } from "../behave/runs.ts";
import { compile } from "../circuit/compile.ts";
import { type Facts, factsOf } from "../facts/facts.ts";
import { plainWalk } from "../testing/every-state.ts";
import { anyLoom } from "../testing/random-loom.ts";
import { rules } from "./index.ts";

interface Said {
  readonly what: string;
  readonly subjects: readonly string[];
}

const saidOf = (facts: Facts): readonly Said[] =>
  rules.flatMap((rule) =>
    [...rule.check(facts)].map((s) => ({ what: `${s.severity} ${rule.id}`, subjects: s.subjects })),
  );

/** What one says and the other does not: the same rule as gravely, of none of the same parts. */
const lacking = (one: readonly Said[], other: readonly Said[]): readonly string[] =>
  one
    .filter((x) => !other.some((y) => y.what === x.what && y.subjects.some((id) => x.subjects.includes(id))))
    .map((x) => `${x.what}:${x.subjects.join("+")}`);

const SEED = 20_261_126;

// The plain search sees every switch in every position at once. A search by scopes may name another of several ways by
// which a load is fed; it must not miss one, nor make one up.
test("100 looms thrown together: the rules say the same by either search", () => {
  let said = 0;
  fc.assert(
    fc.property(anyLoom, (loom) => {
      const circuit = compile(loom);
      const runs = runsOf(circuit).slice(0, 1);
      const plain = factsOf(circuit, { runs, walk: plainWalk });
      // Where something buzzes the plain search goes no further; the scopes beside it do.
      if (plain.runs.some((r) => r.reachable.restless.length > 0)) return;
      const [all, scoped] = [saidOf(plain), saidOf(factsOf(circuit, { runs }))];
      said += all.length;
      expect({ missed: lacking(all, scoped), madeUp: lacking(scoped, all) }).toEqual({ missed: [], madeUp: [] });
    }),
    { numRuns: 100, seed: SEED },
  );
  expect(said).toBeGreaterThan(100);
});
