import { agree } from "../../behave/complete.ts";
import { END, type State } from "../../behave/state.ts";
import type { Wanted } from "../../circuit/circuit.ts";
import { type Doer, doerOf, doingIn, type Telling, tellingOf } from "../doing.ts";
import type { Facts, RunFacts } from "../facts.ts";
import { foundAt } from "../found.ts";
import type { Judging } from "./breach.ts";
import { wholeWith } from "./only-when.ts";

/** Two parts that are on together, also while a timer runs. */
export function judgeNeverWith(
  { runs, circuit }: Facts,
  wish: Extract<Wanted, { readonly kind: "never with" }>,
  doer: Doer,
  judging: Judging,
): void {
  for (const other of wish.others) {
    const second = doerOf(circuit, other);
    if (second === undefined) continue;
    for (const run of runs)
      for (const one of tellingOf(run, doer))
        for (const two of tellingOf(run, second)) {
          if (one.first === two.first) inOneSearch(run, one, two, other, judging);
          else inTwoSearches(run, one, two, [doer, second], other, judging);
        }
  }
}

function inOneSearch(run: RunFacts, one: Telling, two: Telling, other: string, judging: Judging): void {
  for (let at = one.first; at < one.end; at++)
    if (one.doing(at) === "on" && two.doing(at) === "on") {
      const state = run.wholeAt(at);
      judging.breach(run, at, { kind: "together", other }, { state, ends: state.ends });
    }
}

/**
 * States of two searches that can be one. Firm if the whole loom, at rest round the one, has both on; else it may hang
 * on two histories that exclude each other, and is only possible.
 */
function inTwoSearches(
  run: RunFacts,
  one: Telling,
  two: Telling,
  doers: readonly [Doer, Doer],
  other: string,
  judging: Judging,
): void {
  const scopes = [one, two].map((t) => run.searchOf(t.first).machine.view?.scope);
  const shared = (state: State): string => {
    const both = (side: "inputs" | "latches", i: number) => scopes.every((s) => (s?.[side][i] ?? 1) === 1);
    return [
      ...[...state.stands].map((x, i) => (both("inputs", i) ? x : "")),
      ...[...state.latches].map((x, i) => (both("latches", i) ? x : "")),
    ].join();
  };
  const partners = new Map<string, number>();
  for (let at = two.first; at < two.end; at++)
    if (two.doing(at) === "on") {
      const key = shared(foundAt(run, at).state);
      if (!partners.has(key)) partners.set(key, at);
    }
  for (let at = one.first; at < one.end; at++) {
    const state = foundAt(run, at).state;
    const partner = one.doing(at) === "on" ? partners.get(shared(state)) : undefined;
    const there = partner === undefined ? undefined : foundAt(run, partner).state;
    if (there === undefined || !agree(state, scopes[0], there, scopes[1])) continue;
    const ends = joined(state.ends, there.ends);
    if (ends === undefined) continue;
    const stands = state.stands.map((x, i) => ((scopes[0]?.inputs[i] ?? 1) === 1 ? x : (there.stands[i] as number)));
    const whole = wholeWith(run, at, stands);
    const isFirm = doers.every((d) => doingIn(run, whole, d) === "on");
    judging.breach(run, at, { kind: "together", other }, { state: whole, ends: isFirm ? ends : undefined });
  }
}

/** Ends that two histories hang on together; undefined if they want one relay at both ends. */
function joined(a: Uint8Array, b: Uint8Array): Uint8Array | undefined {
  const all = a.map((bits, i) => bits | (b[i] ?? 0));
  const splits = [END.offLeast | END.offMost, END.onLeast | END.onMost];
  return all.some((bits) => splits.some((both) => (bits & both) === both)) ? undefined : all;
}
