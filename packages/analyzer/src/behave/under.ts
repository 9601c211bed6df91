import type { Machine } from "./machine.ts";
import { hasInput, hasLatch, type Scope } from "./scope.ts";
import { coldState, type State, stateOf } from "./state.ts";

/** A finished search inside a larger one. What its latches want hangs on nothing else, so it need not be decided again. */
export interface Under {
  readonly machine: Machine;
  /** A state of the larger search as the smaller one has it. */
  readonly stateIn: (s: State) => State;
  /** Latches that only the larger one moves. */
  readonly others: readonly number[];
}

/**
 * What the larger search moves besides is as cold in every state of the smaller one.
 *
 * @param machine of the finished search
 */
export function underIn(machine: Machine, inner: Scope, outer: Scope): Under {
  const { circuit } = machine;
  const cold = coldState(circuit);
  const inputs = [...circuit.inputs.keys()].filter((i) => hasInput(outer, i) && !hasInput(inner, i));
  const others = [...circuit.latches.keys()].filter((l) => hasLatch(outer, l) && !hasLatch(inner, l));
  const stateIn = (s: State): State => {
    const [stands, latches, ends] = [s.stands.slice(), s.latches.slice(), s.ends.slice()];
    for (const i of inputs) stands[i] = cold.stands[i] as number;
    for (const l of others) {
      latches[l] = cold.latches[l] as number;
      ends[l] = 0;
    }
    return stateOf(stands, latches, ends);
  };
  return { machine, stateIn, others };
}
