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
import { feltBy } from "./felt.ts";
import type { Learned } from "./learned.ts";
import { emptyShared, type Shared } from "./look.ts";
import type { Machine } from "./machine.ts";
import { isInside, latchVariable, type Scope, scopeOf, type Variable, variablesOf } from "./scope.ts";
import { shortWays } from "./short-ways.ts";
import type { State } from "./state.ts";

/** A search that lacks nothing. */
interface Whole {
  readonly scope: Scope;
  readonly machine: Machine;
  readonly reachable: Reachable;
}

type Look = (machine: Machine, state: State) => void;

/** Solves, over all searches, after which the rest is left and said so. */
const BUDGET_SOLVES = 120_000;

/**
 * Everything the loom can do, in many small searches instead of one: for each relay, each load and each way in which
 * feed could meet ground, a scope that holds all it can hang on. What hangs on nothing in common is never multiplied.
 */
export function exploreByScopes(base: Machine, leaveOut?: ExploreOptions["leaveOut"]): Reachable {
  const { circuit } = base;
  const searches = new Searches(base, leaveOut);
  circuit.latches.forEach((_, l) => {
    searches.forLatch(l);
  });
  const loadsOf = new Map<Whole, number[]>();
  const give = (w: Whole, load: number) => loadsOf.set(w, [...(loadsOf.get(w) ?? []), load]);
  circuit.loads.forEach((_, load) => {
    const ready = searches.kept().find((w) => isDecided(w, load));
    give(ready ?? searches.grow([], (m, s) => void feltBy(m, s, load)), load);
  });
  const shorts = shortWays(circuit)
    .filter((w) => w.isShort)
    .map(({ movers }) => {
      const scope = scopeOf(circuit, movers);
      return searches.kept().find((w) => isInside(scope, w.scope)) ?? searches.grow(movers);
    });
  if (searches.whole.length === 0) searches.grow([]);
  // A scope inside another says nothing new; its loads go to the larger one.
  const last = searches.kept();
  for (const [w, loads] of [...loadsOf]) {
    const into = last.includes(w) ? w : last.find((o) => isInside(w.scope, o.scope));
    if (into !== undefined && into !== w) for (const l of loads) give(into, l);
  }
  return joined(base, last, (w) => ({
    loads: loadsOf.get(w) ?? [],
    mayShort: shorts.some((s) => isInside(s.scope, w.scope)),
  }));
}

/** The searches of one run as they grow. */
class Searches {
  readonly whole: Whole[] = [];
  readonly #base: Machine;
  readonly #shared: Shared = emptyShared();
  readonly #leaveOut: ExploreOptions["leaveOut"];
  readonly #learned = new Map<number, Learned>();
  readonly #underWay = new Set<number>();

  constructor(base: Machine, leaveOut: ExploreOptions["leaveOut"]) {
    this.#base = base;
    this.#leaveOut = leaveOut;
  }

  /** Scopes inside no other, the smallest first. */
  kept(): readonly Whole[] {
    return this.whole
      .filter((w) => !this.whole.some((o) => o !== w && isInside(w.scope, o.scope)))
      .sort((a, b) => a.reachable.found.length - b.reachable.found.length);
  }

  /** Searches all that a latch hangs on, unless that is under way further up. */
  forLatch(latch: number): void {
    if (this.#learned.has(latch) || this.#underWay.has(latch)) return;
    this.#underWay.add(latch);
    const own = this.whole.find((w) => w.scope.latches[latch] === 1);
    const { scope, machine } = own ?? this.grow([latchVariable(this.#base.circuit, latch)]);
    this.#underWay.delete(latch);
    // A copy: later questions about states that are never reached pass through the same machine.
    this.#learned.set(latch, { scope, passed: [...(machine.view?.passed ?? [])] });
  }

  /** Latches that the searches have not come to yet are searched first: what is learned of them may be enough. */
  #learnFirst(missing: ReadonlySet<Variable>): boolean {
    const latches = [...missing].map((v) => v - this.#base.circuit.inputs.length);
    const fresh = latches.filter((l) => l >= 0 && !this.#learned.has(l) && !this.#underWay.has(l));
    for (const l of fresh) this.forLatch(l);
    return fresh.some((l) => this.#learned.has(l));
  }

  /** Searches from these variables, and again with what turns out to be missing, until nothing is. */
  grow(start: readonly Variable[], look?: Look): Whole {
    const { circuit } = this.#base;
    let variables = new Set(start);
    for (;;) {
      const scope = scopeOf(circuit, variables);
      const known = this.whole.find((w) => isInside(w.scope, scope) && isInside(scope, w.scope));
      if (known !== undefined && look === undefined) return known;
      const machine = viewed(this.#base, scope, { shared: this.#shared, learned: this.#learned });
      const missing = machine.view?.missing ?? new Set();
      const reachable = explore(machine, {
        budget: BUDGET_SOLVES,
        ...(look && { look: (s) => look(machine, s) }),
        ...(this.#leaveOut && { leaveOut: this.#leaveOut }),
      });
      this.#base.solves = machine.solves;
      if (missing.size === 0) {
        if (known !== undefined) return known;
        const made = { scope, machine, reachable };
        this.whole.push(made);
        return made;
      }
      if (this.#learnFirst(missing)) continue;
      variables = new Set(variablesOf(circuit, scope));
      for (const v of missing) {
        variables.add(v);
        // What another search has found a latch to hang on need not be found again.
        const of = this.#learned.get(v - circuit.inputs.length);
        if (of !== undefined) for (const k of variablesOf(circuit, of.scope)) variables.add(k);
      }
    }
  }
}

/** Whether a search knows in each of its states what a load does. */
function isDecided({ machine, reachable }: Whole, load: number): boolean {
  const { view } = machine;
  if (view === undefined) return true;
  for (const { state } of reachable.found) {
    feltBy(machine, state, load);
    if (view.missing.size > 0) {
      view.missing.clear();
      return false;
    }
  }
  return true;
}

function joined(
  base: Machine,
  whole: readonly Whole[],
  about: (w: Whole) => Pick<Search, "loads" | "mayShort">,
): Reachable {
  const found: Found[] = [];
  const edges: Edge[] = [];
  const restless: Restless[] = [];
  const searches: Search[] = [];
  for (const w of whole) {
    const first = found.length;
    const later = (at: number) => (at < 0 ? at : at + first);
    for (const f of w.reachable.found) found.push({ ...f, before: later(f.before) });
    for (const e of w.reachable.edges) edges.push({ ...e, from: later(e.from), to: later(e.to) });
    for (const r of w.reachable.restless) restless.push({ ...r, from: later(r.from) });
    searches.push({ machine: w.machine, first, end: found.length, ...about(w) });
  }
  return { machine: base, found, edges, restless, complete: whole.every((w) => w.reachable.complete), searches };
}
