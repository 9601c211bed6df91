import type { Circuit, Latch } from "../circuit/circuit.ts";
import type { Machine } from "./machine.ts";
import { oneRest, settleToRest } from "./settle.ts";
import { type State, stateOf } from "./state.ts";

/** What comes of a cold start, by where it starts. */
interface Colds {
  /** Relays that are in at one rest state; undefined if the first way comes to none. */
  readonly one: Map<string, State | undefined>;
  /** Relays that are in at any. */
  readonly all: Map<string, ReadonlySet<number>>;
}

const caches = new WeakMap<Machine, Colds>();

function coldsOf(machine: Machine): Colds {
  let colds = caches.get(machine);
  if (colds === undefined) {
    colds = { one: new Map(), all: new Map() };
    caches.set(machine, colds);
  }
  return colds;
}

const keptIn = new WeakMap<Circuit, ReadonlySet<number>>();

/** What is meant to remember, and an engine that runs: they stay as they are. */
function keptOf(circuit: Circuit): ReadonlySet<number> {
  let kept = keptIn.get(circuit);
  if (kept === undefined) {
    kept = new Set(circuit.latches.flatMap((l, i) => (l.kept ? [i] : [])));
    keptIn.set(circuit, kept);
  }
  return kept;
}

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

/** Power off, with the inputs where they stand in `state`, and what is kept as it is. */
function coldStart({ circuit }: Machine, state: State): State {
  const latches = new Uint8Array(state.latches.length);
  for (const k of keptOf(circuit)) latches[k] = state.latches[k] ?? 0;
  return stateOf(state.stands, latches, state.ends);
}

/**
 * Relays that are in, in some rest state reached when power comes on with everything out and the inputs already where
 * they stand in `state`. The yardstick of memory; it need not be reachable.
 */
export function coldRelays(machine: Machine, state: State): ReadonlySet<number> {
  const { all } = coldsOf(machine);
  const start = coldStart(machine, state);
  const known = all.get(start.key);
  if (known !== undefined) return known;
  const relays = armatures(machine);
  const rest = settleToRest(machine, start, keptOf(machine.circuit));
  const set = new Set(rest.states.flatMap((s) => relays.filter((r) => s.latches[r] === 1)));
  if (isWorth(machine)) all.set(start.key, set);
  return set;
}

/** One rest state of the same start. */
function oneColdRest(machine: Machine, state: State): State | undefined {
  const { one } = coldsOf(machine);
  const start = coldStart(machine, state);
  if (one.has(start.key)) return one.get(start.key);
  const rest = oneRest(machine, start, { frozen: keptOf(machine.circuit) });
  if (isWorth(machine)) one.set(start.key, rest);
  return rest;
}

/** What a view that lacks something decides is worth nothing. */
const isWorth = ({ view }: Machine): boolean => view === undefined || view.missing.size === 0;

/** Relays that are in, of those that the machine moves and that are not meant to remember. */
export const relaysInNow = (machine: Machine, state: State): readonly number[] =>
  armatures(machine).filter((r) => state.latches[r] === 1);

/** Relays that are in, and are in no cold state of the same inputs: `extra(s)`. */
export function extraRelays(machine: Machine, state: State): readonly number[] {
  const inNow = relaysInNow(machine, state);
  if (inNow.length === 0) return [];
  // Most of what is in is asked for, and one rest state is enough to see that.
  const rest = oneColdRest(machine, state);
  if (rest !== undefined && inNow.every((r) => rest.latches[r] === 1)) return [];
  const cold = coldRelays(machine, state);
  return inNow.filter((r) => !cold.has(r));
}
