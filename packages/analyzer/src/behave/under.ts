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
  const stateIn = (s: State): State =>
    stateOf(
      likeAt(s.stands, cold.stands, inputs),
      likeAt(s.latches, cold.latches, others),
      likeAt(s.ends, cold.ends, others),
      s,
    );
  return { machine, stateIn, others };
}

/** The same list if it is as the other at these places, else one that is. */
function likeAt(list: Uint8Array, other: Uint8Array, places: readonly number[]): Uint8Array {
  let like = list;
  for (const i of places) {
    if (like[i] === other[i]) continue;
    if (like === list) like = list.slice();
    like[i] = other[i] as number;
  }
  return like;
}
