import type { Facts, RunFacts } from "../facts/facts.ts";
import { runWords } from "./progress.ts";
import type { Coverage } from "./report.ts";

/** What was looked at, and what was not or only in part. */
export function coverageOf(facts: Facts): Coverage {
  const left = facts.runs
    .filter((r) => !r.reachable.complete)
    .map((r) => `${runWords(r)}: not every order of moves was looked at`);
  for (const r of facts.runs)
    for (const l of r.reachable.asUsual)
      left.push(
        `${runWords(r)}: whether ${facts.circuit.latches[l]?.id} moves hangs on how much all else draws; only the largest of it was looked at`,
      );
  const sum = (pick: (r: RunFacts) => number) => facts.runs.reduce((n, r) => n + pick(r), 0);
  return {
    complete: left.length === 0,
    left,
    counts: {
      runs: facts.runs.length,
      states: sum((r) => r.reachable.found.length),
      solves: sum((r) => r.machine.solves),
    },
  };
}
