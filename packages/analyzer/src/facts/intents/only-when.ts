import { completed } from "../../behave/complete.ts";
import type { State } from "../../behave/state.ts";
import type { Wanted } from "../../circuit/circuit.ts";
import { type Doer, tellingOf } from "../doing.ts";
import type { Facts, RunFacts } from "../facts.ts";
import { foundAt } from "../found.ts";
import { avoiding } from "../situation.ts";
import { type Judging, TOO_MANY } from "./breach.ts";
import { isElectronics } from "./breaks.ts";

/** On, or half on, at rest in none of the situations. Electronics that sleep are off. */
export function judgeOnlyWhen(
  { runs, circuit }: Facts,
  wish: Extract<Wanted, { readonly kind: "on only when" | "on when" }>,
  doer: Doer,
  judging: Judging,
): void {
  const sleeps = isElectronics(circuit, wish.part);
  for (const run of runs)
    for (const { first, end, doing } of tellingOf(run, doer))
      for (let at = first; at < end; at++) {
        const found = foundAt(run, at);
        if (!found.rest) continue;
        const on = doing(at);
        if (on === "off" || (sleeps && on === "partly")) continue;
        const stands = avoiding(run, at, wish.when);
        if (stands === "too many") judging.missing.add(TOO_MANY);
        else if (stands !== undefined)
          judging.breach(run, at, { kind: "on", on }, { state: wholeWith(run, at, stands), ends: found.state.ends });
      }
}

/** Found state `at` with the whole loom at rest around it, other inputs standing so. */
export function wholeWith(run: RunFacts, at: number, stands: Uint8Array): State {
  const { state } = foundAt(run, at);
  if (stands.every((s, i) => s === state.stands[i])) return run.wholeAt(at);
  return completed(run.machine, run.searchOf(at).machine.view?.scope, state, stands);
}
