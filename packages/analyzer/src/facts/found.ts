import type { Found } from "../behave/explore.ts";
import type { RunFacts } from "./facts.ts";

/** Found state `at` as its search has it. */
export function foundAt({ reachable }: RunFacts, at: number): Found {
  const found = reachable.found[at];
  if (found === undefined) throw new Error(`no state ${at} was found`);
  return found;
}
