import { byIslands } from "../behave/decide.ts";
import type { Machine } from "../behave/machine.ts";
import { settleToRest } from "../behave/settle.ts";
import { type State, stateOf } from "../behave/state.ts";

const cache = new WeakMap<Machine, Map<string, readonly State[]>>();

/**
 * Where the loom comes to rest when power comes on with the switches as in `state`, every relay out and no engine
 * turning. Latching relays stay as they are: they are meant to remember. Cost: one settling for each set of positions.
 */
export function coldRest(machine: Machine, state: State): readonly State[] {
  const { circuit } = machine;
  const latches = Uint8Array.from(circuit.latches, (l, i) =>
    (l.kind === "armature" || l.kind === "contact") && l.kept ? (state.latches[i] ?? 0) : 0,
  );
  const stands = Uint8Array.from(circuit.inputs, (input, i) =>
    input.kind === "world" ? input.usual : (state.stands[i] ?? 0),
  );
  const start = stateOf(stands, latches, state.ends);
  let known = cache.get(machine);
  if (known === undefined) {
    known = new Map();
    cache.set(machine, known);
  }
  let rest = known.get(start.key);
  if (rest === undefined) {
    rest = settleToRest(byIslands(machine), start).states;
    known.set(start.key, rest);
  }
  return rest;
}
