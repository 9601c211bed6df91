import { viewed } from "./decide.ts";
import {
  type Edge,
  type ExploreOptions,
  explore,
  type Found,
  type Reachable,
  type Restless,
  type Search,
} from "./explore.ts";
import { type Felt, feltBy } from "./felt.ts";
import type { Learned } from "./learned.ts";
import { lifted, liftingInputs } from "./lift.ts";
import type { IslandView } from "./look.ts";
import type { Machine, View } from "./machine.ts";
import { poleWays } from "./pole-ways.ts";
import { hasVariable, isInside, latchVariable, type Scope, scopeOf, type Variable, variablesOf } from "./scope.ts";
import { atOnce, type Slices } from "./slices.ts";
import { type Under, underIn } from "./under.ts";

/** A search that lacks nothing. */
interface Whole {
  readonly scope: Scope;
  readonly machine: Machine;
  readonly reachable: Reachable;
  /** What loads do in each of its states, once asked. */
  readonly felt: Map<number, readonly Felt[]>;
}

/** Rounds in which only the sag of the supply was missing, after which what is left of it is taken as usual. */
const MOST_SAG_ROUNDS = 3;

/** Solves, over all searches, after which the rest is left and said so. */
const BUDGET_SOLVES = 120_000;

/** What a search of a loom that differs little can begin with. */
interface Known {
  /** Scopes that were enough for each latch and each load, by index. */
  readonly ofLatch: ReadonlyMap<number, Scope>;
  readonly ofLoad: ReadonlyMap<number, Scope>;
}

export interface ScopeOptions {
  /** A walk of the same circuit, perhaps with other values or fewer wires. It changes no answer. */
  readonly near?: Known | undefined;
  /** See `ExploreOptions`. */
  readonly leaveOut?: ExploreOptions["leaveOut"];
}

/** Everything the loom can do, and what the next walk can begin with. */
export interface ScopedReachable extends Reachable {
  readonly known: Known;
}

/**
 * Everything the loom can do, in many small searches instead of one: for each relay, each load and each way in which
 * two poles could meet, a scope that holds all it can hang on. What hangs on nothing in common is never multiplied.
 */
export const exploreByScopes = (base: Machine, options: ScopeOptions = {}): ScopedReachable =>
  atOnce(exploreInSlices(base, options));

/** The same, resting between searches. */
export function* exploreInSlices(base: Machine, options: ScopeOptions = {}): Slices<ScopedReachable> {
  const { circuit } = base;
  const searches = new Searches(base, options);
  const all = circuit.latches.length + circuit.loads.length;
  for (const l of circuit.latches.keys()) {
    yield l / all;
    searches.forLatch(l);
  }
  const ofLoad: Whole[] = [];
  for (const load of circuit.loads.keys()) {
    yield (circuit.latches.length + load) / all;
    ofLoad.push(searches.forLoad(load));
  }
  const ways = poleWays(circuit).flatMap(({ movers, kind }) =>
    kind === "drain" ? [] : [{ kind, scope: scopeOf(circuit, movers), movers }],
  );
  for (const { scope, movers } of ways)
    if (!searches.whole.some((w) => isInside(scope, w.scope))) searches.grow(movers);
  if (searches.whole.length === 0) searches.grow([]);
  // A scope inside another says nothing new; its loads go to the larger one.
  const kept = searches.kept();
  const loadsOf = new Map<Whole, number[]>(kept.map((w) => [w, []]));
  ofLoad.forEach((own, load) => {
    const into = (loadsOf.has(own) ? own : kept.find((w) => isInside(own.scope, w.scope))) as Whole;
    // What was enough for a smaller scope is enough for a larger.
    lacking(into, load);
    loadsOf.get(into)?.push(load);
  });
  const reachable = joined(base, kept, (w) => ({
    loads: loadsOf.get(w) ?? [],
    felt: w.felt,
    meets: new Set(ways.flatMap(({ scope, kind }) => (isInside(scope, w.scope) ? [kind] : []))),
  }));
  const known: Known = {
    ofLatch: new Map([...searches.learned].map(([l, { scope }]) => [l, scope])),
    ofLoad: new Map(ofLoad.map(({ scope }, load) => [load, scope])),
  };
  searches.forget();
  return { ...reachable, known };
}

/** The searches of one run as they grow. */
class Searches {
  readonly whole: Whole[] = [];
  readonly learned = new Map<number, Learned>();
  readonly #base: Machine;
  readonly #options: ScopeOptions;
  readonly #underWay = new Set<number>();
  /** What `kept` gave when there were so many searches. */
  #kept: { readonly of: number; readonly list: readonly Whole[] } = { of: 0, list: [] };

  constructor(base: Machine, options: ScopeOptions) {
    this.#base = base;
    this.#options = options;
  }

  /** Scopes inside no other, the smallest first. */
  kept(): readonly Whole[] {
    const { whole } = this;
    if (this.#kept.of !== whole.length) {
      const outer = whole.filter((w) => !whole.some((o) => o !== w && isInside(w.scope, o.scope)));
      this.#kept = { of: whole.length, list: outer.sort((a, b) => statesOf(a) - statesOf(b)) };
    }
    return this.#kept.list;
  }

  /** Searches all that a latch hangs on, unless that is under way further up. */
  forLatch(latch: number): void {
    if (this.learned.has(latch) || this.#underWay.has(latch)) return;
    this.#underWay.add(latch);
    const { circuit } = this.#base;
    const own = this.whole.find((w) => w.scope.latches[latch] === 1);
    const start = this.#begin(this.#options.near?.ofLatch.get(latch));
    const { scope, machine } = own ?? this.grow([latchVariable(circuit, latch), ...start]);
    this.#underWay.delete(latch);
    // A copy: later questions about states that are never reached pass through the same machine.
    this.learned.set(latch, { scope, passed: [...(machine.view?.passed ?? [])] });
  }

  /** The search that tells what a load does. */
  forLoad(load: number): Whole {
    const near = this.#options.near?.ofLoad.get(load);
    if (near !== undefined) return this.grow(this.#begin(near), load);
    // A search that shares nothing with what another was found to lack will lack it too.
    const lacked: (readonly Variable[])[] = [];
    for (const w of this.kept()) {
      if (lacked.some((missing) => !missing.some((v) => hasVariable(w.scope, v)))) continue;
      const missing = lacking(w, load);
      if (missing.length === 0) return w;
      lacked.push(missing);
    }
    return this.grow([], load);
  }

  /** Looks at states are many and large, and hardly any is asked for again. */
  forget(): void {
    this.#base.trunks.clear();
    for (const { view } of this.whole.map((w) => w.machine)) {
      view?.passed.splice(0);
      (view as IslandView).seen.known.byState.clear();
      (view as IslandView).seen.bare.byState.clear();
    }
  }

  #begin(scope: Scope | undefined): readonly Variable[] {
    return scope === undefined ? [] : variablesOf(this.#base.circuit, scope);
  }

  /** Latches that the searches have not come to yet are searched first: what is learned of them may be enough. */
  #learnFirst(missing: readonly Variable[]): boolean {
    const latches = missing.map((v) => v - this.#base.circuit.inputs.length);
    const fresh = latches.filter((l) => l >= 0 && !this.learned.has(l) && !this.#underWay.has(l));
    for (const l of fresh) this.forLatch(l);
    return fresh.some((l) => this.learned.has(l));
  }

  /** Searches from these variables, and again with what turns out to be missing, until nothing is. */
  grow(start: readonly Variable[], load?: number): Whole {
    const { circuit } = this.#base;
    let variables = new Set(start);
    for (let sagRounds = 0; ; ) {
      const scope = scopeOf(circuit, variables);
      const known = this.whole.find((w) => isInside(w.scope, scope) && isInside(scope, w.scope));
      const whole = known ?? this.#search(scope, sagRounds >= MOST_SAG_ROUNDS);
      const own = [...(whole.machine.view?.missing ?? [])];
      const missing = own.length > 0 || load === undefined ? own : lacking(whole, load);
      if (own.length === 0 && known === undefined) this.whole.push(whole);
      if (missing.length === 0) return whole;
      const { bySag } = whole.machine.view as View;
      if (missing.every((v) => bySag.has(v))) sagRounds++;
      if (this.#learnFirst(missing)) continue;
      variables = new Set(variablesOf(circuit, scope));
      const first = load === undefined ? undefined : this.#nearestOf(missing);
      for (const v of first === undefined ? missing : [first]) {
        variables.add(v);
        // What another search has found a latch to hang on need not be found again.
        const of = this.learned.get(v - circuit.inputs.length);
        if (of !== undefined) for (const k of variablesOf(circuit, of.scope)) variables.add(k);
      }
    }
  }

  /** Of the latches missing, the one that hangs on least: what feeds many is known before what they do. */
  #nearestOf(missing: readonly Variable[]): Variable | undefined {
    const { circuit } = this.#base;
    let nearest: Variable | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const v of missing) {
      const of = this.learned.get(v - circuit.inputs.length);
      const size = of === undefined ? Number.POSITIVE_INFINITY : variablesOf(circuit, of.scope).length;
      if (size < least) [nearest, least] = [v, size];
    }
    return nearest;
  }

  /** Of the finished searches inside a scope the one that moves most. */
  #largestIn(scope: Scope): Under | undefined {
    let largest: Whole | undefined;
    for (const w of this.whole)
      if (w.machine.latches.length > (largest?.machine.latches.length ?? 0) && isInside(w.scope, scope)) largest = w;
    return largest && underIn(largest.machine, largest.scope, scope);
  }

  #search(scope: Scope, sagAsUsual: boolean): Whole {
    const base = this.#base;
    const { learned } = this;
    const { leaveOut } = this.#options;
    for (const { scope: smaller, machine: lower, reachable: of } of this.whole) {
      const inputs = leaveOut === undefined ? liftingInputs(base.circuit, smaller, of, scope) : undefined;
      if (inputs === undefined) continue;
      const machine = viewed(base, scope, { learned, sagAsUsual, under: underIn(lower, smaller, scope) });
      for (const l of lower.view?.asUsual ?? []) machine.view?.asUsual.add(l);
      return { scope, machine, reachable: lifted(machine, of, inputs), felt: new Map() };
    }
    const machine = viewed(base, scope, { learned, sagAsUsual, under: this.#largestIn(scope) });
    const reachable = explore(machine, { budget: BUDGET_SOLVES, ...(leaveOut && { leaveOut }) });
    base.solves = machine.solves;
    return { scope, machine, reachable, felt: new Map() };
  }
}

const statesOf = (w: Whole): number => w.reachable.found.length;

/** What a search lacks to say what a load does in each of its states; it stops at the first that lacks anything. */
function lacking({ machine, reachable, felt }: Whole, load: number): readonly Variable[] {
  const view = machine.view as View;
  if (felt.has(load)) return [];
  const list: Felt[] = [];
  for (const { state } of reachable.found) {
    list.push(feltBy(machine, state, load));
    if (view.missing.size > 0) {
      const missing = [...view.missing];
      view.missing.clear();
      return missing;
    }
  }
  felt.set(load, list);
  return [];
}

function joined(
  base: Machine,
  whole: readonly Whole[],
  about: (w: Whole) => Pick<Search, "loads" | "felt" | "meets">,
): Reachable {
  const found: Found[] = [];
  const edges: Edge[] = [];
  const restless: Restless[] = [];
  const rattling: Restless[] = [];
  const searches: Search[] = [];
  for (const w of whole) {
    const first = found.length;
    const later = (at: number) => (at < 0 ? at : at + first);
    for (const f of w.reachable.found) found.push({ ...f, before: later(f.before) });
    for (const e of w.reachable.edges) edges.push({ ...e, from: later(e.from), to: later(e.to) });
    for (const r of w.reachable.restless) restless.push({ ...r, from: later(r.from) });
    for (const r of w.reachable.rattling) rattling.push({ ...r, from: later(r.from) });
    searches.push({ machine: w.machine, first, end: found.length, ...about(w) });
  }
  const asUsual = [...new Set(whole.flatMap((w) => [...(w.machine.view?.asUsual ?? [])]))].sort((a, b) => a - b);
  const complete = whole.every((w) => w.reachable.complete);
  return { machine: base, found, edges, restless, rattling, complete, asUsual, searches };
}
