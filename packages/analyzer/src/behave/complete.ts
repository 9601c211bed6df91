import type { Circuit } from "../circuit/circuit.ts";
import { byIslands } from "./decide.ts";
import type { Machine } from "./machine.ts";
import type { Scope } from "./scope.ts";
import { settle } from "./settle.ts";
import { coldState, type State, stateOf } from "./state.ts";

/**
 * A state of a scope as part of the whole loom: what is outside comes to rest around it, with its inputs as `stands`
 * says. Nothing inside moves, for nothing inside hangs on what is outside. Outside, the first of several ways to rest
 * is taken. Meant for showing a state; what was decided does not hang on it.
 *
 * @param base the machine of the whole loom
 */
export function completed(base: Machine, scope: Scope | undefined, state: State, stands = state.stands): State {
  if (scope === undefined) return state;
  const start = stateOf(stands, state.latches, state.ends);
  const inside = [...scope.latches.keys()].filter((l) => scope.latches[l] === 1);
  return settle(byIslands(base), start, { frozen: new Set(inside) }).landings[0]?.state ?? start;
}

/** Where the inputs of a scope stand when the whole loom stands so: the others stand as usual. */
export function standsWithin(circuit: Circuit, scope: Scope | undefined, stands: Uint8Array): Uint8Array {
  if (scope === undefined) return stands;
  return coldState(circuit).stands.map((usual, i) => (scope.inputs[i] === 1 ? (stands[i] as number) : usual));
}

/** Whether two states, each of its own scope, can be one state of the whole loom. */
export function agree(s: State, one: Scope | undefined, t: State, other: Scope | undefined): boolean {
  const shared = (side: "inputs" | "latches", i: number) =>
    (one?.[side][i] ?? 1) === 1 && (other?.[side][i] ?? 1) === 1;
  return (
    s.stands.every((x, i) => x === t.stands[i] || !shared("inputs", i)) &&
    s.latches.every((x, i) => x === t.latches[i] || !shared("latches", i))
  );
}
