import { extraRelays } from "../behave/cold.ts";
import { explore, type Reachable } from "../behave/explore.ts";
import { type Hold, holdsIn } from "../behave/hold.ts";
import { askedIn, isAskedFor, type On, onState } from "../behave/loads.ts";
import { type Machine, machineOf, pointOf } from "../behave/machine.ts";
import { type Run, runsOf } from "../behave/runs.ts";
import type { Circuit, Load } from "../circuit/circuit.ts";
import { opening } from "../circuit/patch.ts";

/** A load in one found state. */
export interface LoadFact {
  readonly load: Load;
  readonly on: On;
  readonly asked: boolean;
}

/** What was computed in one run; each part on first asking. */
export interface RunFacts {
  readonly run: Run;
  readonly machine: Machine;
  readonly reachable: Reachable;
  /** Cost: one settling a subset of the relays that stay in. */
  readonly holds: () => readonly Hold[];
  /** Loads in found state `at`. Cost: two walks over the circuit. */
  readonly loadsAt: (at: number) => readonly LoadFact[];
}

/** What rules may ask. A rule never solves; it reads these. */
export interface Facts {
  readonly circuit: Circuit;
  readonly runs: readonly RunFacts[];
  /** The same facts with some elements open, of the runs with these ids only. */
  readonly withOpen: (elements: readonly number[], runIds: ReadonlySet<string>) => Facts;
}

export function factsOf(circuit: Circuit, open: readonly number[] = [], runs: readonly Run[] = runsOf(circuit)): Facts {
  const cache = new Map<string, Facts>();
  return {
    circuit,
    runs: runs.map((run) => runFacts(circuit, run, open)),
    withOpen: (elements, runIds) => {
      const key = `${[...elements].sort((a, b) => a - b).join()}|${[...runIds].sort().join()}`;
      let facts = cache.get(key);
      if (facts === undefined) {
        facts = factsOf(
          circuit,
          [...open, ...elements],
          runs.filter((r) => runIds.has(r.id)),
        );
        cache.set(key, facts);
      }
      return facts;
    },
  };
}

function runFacts(circuit: Circuit, run: Run, open: readonly number[]): RunFacts {
  const machine = machineOf(circuit, opening(run.patch, open));
  const reachable = once(() => explore(machine));
  const holds = once(() => holdsIn(reachable()));
  const loads = new Map<number, readonly LoadFact[]>();
  return {
    run,
    machine,
    get reachable() {
      return reachable();
    },
    holds,
    loadsAt: (at) => {
      let list = loads.get(at);
      if (list === undefined) {
        list = loadFacts(machine, reachable(), at);
        loads.set(at, list);
      }
      return list;
    },
  };
}

function loadFacts(machine: Machine, reachable: Reachable, at: number): readonly LoadFact[] {
  const state = reachable.found[at]?.state;
  if (state === undefined) return [];
  const point = pointOf(machine, state);
  const asked = askedIn(machine, state);
  return machine.circuit.loads.map((load) => ({
    load,
    on: onState(machine, state, point, load),
    asked: isAskedFor(machine.circuit, asked, load),
  }));
}

/**
 * What works: each load that is on in some rest state without memory, with where the inputs stand then. The measure of
 * a harmless cut. Coils are means, not ends; they do not count.
 */
export function worksIn(facts: RunFacts): ReadonlyMap<string, string> {
  const works = new Map<string, string>();
  facts.reachable.found.forEach((f, at) => {
    if (!f.rest || extraRelays(facts.machine, f.state).length > 0) return;
    for (const { load, on } of facts.loadsAt(at))
      if (on === "on" && load.judge.kind !== "latch")
        works.set(`${String.fromCharCode(...f.state.stands)}${load.part}`, load.part);
  });
  return works;
}

function once<T>(make: () => T): () => T {
  let value: { readonly is: T } | undefined;
  return () => {
    value ??= { is: make() };
    return value.is;
  };
}
