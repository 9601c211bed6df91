import { extraRelays } from "../behave/cold.ts";
import { completed, standsWithin } from "../behave/complete.ts";
import type { Reachable, Search } from "../behave/explore.ts";
import { exploreInSlices, type ScopedReachable } from "../behave/factor.ts";
import { feltBy } from "../behave/felt.ts";
import { type Hold, holdsIn } from "../behave/hold.ts";
import type { On } from "../behave/loads.ts";
import { closedIn, type Machine, machineOf, within } from "../behave/machine.ts";
import { once } from "../behave/once.ts";
import { type Run, runsOf } from "../behave/runs.ts";
import { atOnce, type Slices } from "../behave/slices.ts";
import type { State } from "../behave/state.ts";
import type { Circuit, Load } from "../circuit/circuit.ts";
import { opening } from "../circuit/patch.ts";
import { stayingOn } from "./staying-on.ts";

/** A load in one found state. */
export interface LoadFact {
  readonly load: Load;
  readonly on: On;
  readonly asked: boolean;
}

/** What was computed in one run; each part on first asking. */
export interface RunFacts {
  readonly run: Run;
  /** The whole loom. */
  readonly machine: Machine;
  readonly reachable: Reachable;
  /** Looks for all that is reachable, resting between searches. */
  readonly exploring: () => Slices<Reachable>;
  /** The search that found state `at`. */
  readonly searchOf: (at: number) => Search;
  /** Found state `at` with the whole loom come to rest around it. */
  readonly wholeAt: (at: number) => State;
  /** Which elements conduct in found state `at`, as far as its search moves them: one byte each. */
  readonly closedAt: (at: number) => Uint8Array;
  /** Cost: one settling a subset of the relays that stay in. */
  readonly holds: () => readonly Hold[];
  /** Those in which one of these relays takes part, for less. */
  readonly holdsAmong: (relays: readonly number[]) => readonly Hold[];
  /** Loads in found state `at`: those that its search decides. Cost: one look at the islands of each. */
  readonly loadsAt: (at: number) => readonly LoadFact[];
}

/** What rules may ask. A rule never solves; it reads these. */
export interface Facts {
  readonly circuit: Circuit;
  readonly runs: readonly RunFacts[];
  /** Whether these are all runs of the loom. Only then can something be said never to be. */
  readonly ofAllRuns: boolean;
  /** The same facts with some elements open, of the runs with these ids only. */
  readonly withOpen: (elements: readonly number[], runIds: ReadonlySet<string>) => Facts;
}

/** How everything that the loom can do is looked for, given what was found of a loom that differs little. */
type Walk = (machine: Machine, near: Reachable | undefined) => Slices<Reachable>;

const byScopes: Walk = (machine, near) =>
  exploreInSlices(machine, {
    near: near !== undefined && "known" in near ? (near as ScopedReachable).known : undefined,
  });

export interface FactsOptions {
  readonly open?: readonly number[];
  readonly runs?: readonly Run[];
  readonly walk?: Walk;
  /** Facts of the same circuit with fewer elements open: a walk can begin with what was found there. */
  readonly near?: Facts;
}

export function factsOf(circuit: Circuit, options: FactsOptions = {}): Facts {
  const { open = [], runs = runsOf(circuit), walk = byScopes, near } = options;
  const cache = new Map<string, Facts>();
  const list: RunFacts[] = [];
  for (const run of runs) {
    const same = near?.runs.find((r) => r.run.id === run.id) ?? list[0];
    list.push(runFacts(circuit, run, open, (machine) => walk(machine, same?.reachable)));
  }
  const facts: Facts = {
    circuit,
    runs: list,
    ofAllRuns: true,
    withOpen: (elements, runIds) => {
      const key = `${[...elements].sort((a, b) => a - b).join()}|${[...runIds].sort().join()}`;
      let opened = cache.get(key);
      if (opened === undefined) {
        const some = runs.filter((r) => runIds.has(r.id));
        const all = factsOf(circuit, { open: [...open, ...elements], runs: some, walk, near: facts });
        opened = some.length === runs.length ? all : among(all, all.runs);
        cache.set(key, opened);
      }
      return opened;
    },
  };
  return facts;
}

/** The same facts, of some runs only. */
export const among = (facts: Facts, runs: readonly RunFacts[]): Facts => ({ ...facts, runs, ofAllRuns: false });

function runFacts(
  circuit: Circuit,
  run: Run,
  open: readonly number[],
  walk: (machine: Machine) => Slices<Reachable>,
): RunFacts {
  const machine = machineOf(circuit, opening(run.patch, open));
  const walking = once(() => walk(machine));
  let all: Reachable | undefined;
  function* exploring(): Slices<Reachable> {
    while (all === undefined) {
      const next = walking().next();
      if (next.done) all = next.value;
      else yield next.value;
    }
    return all;
  }
  const reachable = (): Reachable => all ?? atOnce(exploring());
  const loads = new Map<number, readonly LoadFact[]>();
  const whole = new Map<number, State>();
  const searchOf = (at: number): Search => {
    const search = reachable().searches.find((s) => at < s.end);
    if (search === undefined) throw new Error(`no state ${at} was found`);
    return search;
  };
  return {
    run,
    machine,
    get reachable() {
      return reachable();
    },
    exploring,
    searchOf,
    wholeAt: (at) =>
      known(whole, at, () => completed(machine, searchOf(at).machine.view?.scope, stateAt(reachable(), at))),
    closedAt: (at) => closedIn(searchOf(at).machine, stateAt(reachable(), at)),
    holds: once(() => holdsIn(reachable())),
    holdsAmong: (relays) => holdsIn(reachable(), relays),
    loadsAt: (at) => known(loads, at, () => loadFacts(searchOf(at), stateAt(reachable(), at), at)),
  };
}

function stateAt({ found }: Reachable, at: number): State {
  const state = found[at]?.state;
  if (state === undefined) throw new Error(`no state ${at} was found`);
  return state;
}

const loadFacts = ({ machine, loads, felt, first }: Search, state: State, at: number): readonly LoadFact[] =>
  loads.map((index) => ({
    load: machine.circuit.loads[index] as Load,
    ...(felt?.get(index)?.[at - first] ?? within(machine, (m) => feltBy(m, state, index))),
  }));

/** Where the inputs stand when a load works, though nothing is remembered. */
export interface Works {
  readonly load: Load;
  readonly stands: readonly Uint8Array[];
  /** Whether it works with the inputs of the whole loom standing so. */
  readonly at: (stands: Uint8Array) => boolean;
}

/**
 * What works: each load that is on in some rest state without memory, with where the inputs stand then. The measure of
 * a harmless cut. Coils are means, not ends; they do not count.
 */
export const worksIn = (facts: RunFacts): readonly Works[] => known(working, facts, () => findWorks(facts));

const working = new WeakMap<RunFacts, readonly Works[]>();

function findWorks(facts: RunFacts): readonly Works[] {
  const { circuit } = facts.machine;
  // An engine that keeps itself alive remembers too.
  const kept = new Set(stayingOn(facts).flatMap((s) => (s.engine === undefined ? [] : [s.at])));
  const found = new Map<Load, { readonly machine: Machine; readonly by: Map<string, Uint8Array> }>();
  facts.reachable.found.forEach((f, at) => {
    if (!f.rest || kept.has(at)) return;
    const works = facts.loadsAt(at).filter(({ load, on }) => on === "on" && load.judge.kind !== "latch");
    if (works.length === 0) return;
    const { machine } = facts.searchOf(at);
    if (within(machine, (m) => extraRelays(m, f.state)).length > 0) return;
    for (const { load } of works)
      known(found, load, () => ({ machine, by: new Map() })).by.set(f.state.stands.join(), f.state.stands);
  });
  return [...found].map(([load, { machine, by }]) => ({
    load,
    stands: [...by.values()],
    at: (stands) => by.has(standsWithin(circuit, machine.view?.scope, stands).join()),
  }));
}

interface Memory<K, V> {
  readonly get: (key: K) => V | undefined;
  readonly set: (key: K, value: V) => unknown;
}

function known<K, V>(map: Memory<K, V>, key: K, make: () => V): V {
  let value = map.get(key);
  if (value === undefined) {
    value = make();
    map.set(key, value);
  }
  return value;
}
