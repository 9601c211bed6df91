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

/** @param machine of the finished search */
export function underIn(machine: Machine, inner: Scope, outer: Scope): Under {
  const { circuit } = machine;
  const cold = coldState(circuit);
  const inputs = [...circuit.inputs.keys()].filter((i) => hasInput(outer, i) && !hasInput(inner, i));
  const others = [...circuit.latches.keys()].filter((l) => hasLatch(outer, l) && !hasLatch(inner, l));
  return { machine, others, stateIn: (s) => put(s, cold, inputs, others) };
}

/** A state with these inputs and latches as they are cold. */
function put(s: State, cold: State, inputs: readonly number[], latches: readonly number[]): State {
  const stands = inputs.length === 0 ? s.stands : s.stands.slice();
  for (const i of inputs) stands[i] = cold.stands[i] as number;
  if (latches.length === 0) return stateOf(stands, s.latches, s.ends, s);
  const put = s.latches.slice();
  const ends = s.ends.slice();
  for (const l of latches) {
    put[l] = cold.latches[l] as number;
    ends[l] = 0;
  }
  return stateOf(stands, put, ends, s);
}
