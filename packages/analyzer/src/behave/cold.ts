import type { Circuit, Latch } from "../circuit/circuit.ts";
import type { Machine } from "./machine.ts";
import { settleToRest } from "./settle.ts";
import { type State, stateOf } from "./state.ts";

const caches = new WeakMap<Machine, Map<string, ReadonlySet<number>>>();

/** What is meant to remember, and an engine that runs: they stay as they are. */
const keptOf = (circuit: Circuit): readonly number[] => circuit.latches.flatMap((l, i) => (l.kept ? [i] : []));

const armaturesOf = new WeakMap<Machine, readonly number[]>();

/** Armatures that the machine moves and that are not meant to remember, by latch. */
function armatures(machine: Machine): readonly number[] {
  let own = armaturesOf.get(machine);
  if (own === undefined) {
    own = machine.latches.filter((i) => {
      const latch = machine.circuit.latches[i] as Latch;
      return latch.kind === "armature" && !latch.kept;
    });
    armaturesOf.set(machine, own);
  }
  return own;
}

/**
 * Relays that are in, in some rest state reached when power comes on with everything out and the inputs already where
 * they stand in `state`. The yardstick of memory; it need not be reachable.
 */
export function coldRelays(machine: Machine, state: State): ReadonlySet<number> {
  let cache = caches.get(machine);
  if (cache === undefined) {
    cache = new Map();
    caches.set(machine, cache);
  }
  const kept = keptOf(machine.circuit);
  const latches = new Uint8Array(state.latches.length);
  for (const k of kept) latches[k] = state.latches[k] ?? 0;
  const start = stateOf(state.stands, latches, state.ends);
  const known = cache.get(start.key);
  if (known !== undefined) return known;
  const relays = armatures(machine);
  const set = new Set(
    settleToRest(machine, start, new Set(kept)).states.flatMap((s) => relays.filter((r) => s.latches[r] === 1)),
  );
  // What a view that lacks something decides is worth nothing.
  if (machine.view === undefined || machine.view.missing.size === 0) cache.set(start.key, set);
  return set;
}

/** Relays that are in, and are in no cold state of the same inputs: `extra(s)`. */
export function extraRelays(machine: Machine, state: State): readonly number[] {
  const inNow = armatures(machine).filter((r) => state.latches[r] === 1);
  if (inNow.length === 0) return [];
  const cold = coldRelays(machine, state);
  return inNow.filter((r) => !cold.has(r));
}
