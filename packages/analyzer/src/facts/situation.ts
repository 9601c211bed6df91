import { agree } from "../behave/complete.ts";
import { hasInput, hasLatch } from "../behave/scope.ts";
import type { State } from "../behave/state.ts";
import type { Circuit, Situation, Term } from "../circuit/circuit.ts";
import type { RunFacts } from "./facts.ts";
import { foundAt } from "./found.ts";

// Situations that the owner names, held against found states. A found state moves only what its search moves; where a
// situation names something else, that may stand anywhere that it can be brought to.

/** Ways to put inputs that are tried for one state, past which it is said that they were too many. */
const MOST_TRIES = 2000;

/** Where all inputs stand, or why that could not be worked out. */
export type Standing = Uint8Array | "too many";

/** Inputs and engines that a search leaves alone, put somewhere. */
type Put = ReadonlyMap<number, number>;

/** Whether one term holds in a state; undefined if the search leaves its input alone. */
function holds(run: RunFacts, at: number, term: Term): boolean | undefined {
  const scope = run.searchOf(at).machine.view?.scope;
  const state = foundAt(run, at).state;
  if (term.kind === "engine")
    return hasLatch(scope, term.latch) ? (state.latches[term.latch] === 1) === term.is : undefined;
  return hasInput(scope, term.input) ? term.stands[state.stands[term.input] ?? 0] : undefined;
}

/** Whether a situation holds in a state of the whole loom. */
export const isSo = (situation: Situation, state: State): boolean =>
  situation.terms.every((t) =>
    t.kind === "engine" ? (state.latches[t.latch] === 1) === t.is : t.stands[state.stands[t.input] ?? 0] === true,
  );

/** Inputs stand so that the situation holds, with found state `at` as it is; undefined if that cannot be. */
export function meeting(run: RunFacts, at: number, situation: Situation): Standing | undefined {
  return putting(
    run,
    at,
    situation.terms.map((term) => [{ term, is: true }]),
  );
}

/** Inputs stand so that none of the situations holds; undefined if one always does. */
export function avoiding(run: RunFacts, at: number, situations: readonly Situation[]): Standing | undefined {
  return putting(
    run,
    at,
    situations.map((s) => s.terms.map((term) => ({ term, is: false }))),
  );
}

interface Claim {
  readonly term: Term;
  readonly is: boolean;
}

/** Puts what the search leaves alone so that of each group at least one claim comes true. */
function putting(run: RunFacts, at: number, groups: readonly (readonly Claim[])[]): Standing | undefined {
  const open: (readonly Claim[])[] = [];
  for (const group of groups) {
    const known = group.map(({ term, is }) => {
      const now = holds(run, at, term);
      return now === undefined ? undefined : now === is;
    });
    if (known.includes(true)) continue;
    const left = group.filter((_, k) => known[k] === undefined);
    if (left.length === 0) return undefined;
    open.push(left);
  }
  const { state } = foundAt(run, at);
  if (open.length === 0) return state.stands;
  const put = putOnce(run, at, open);
  if (put === undefined || put === "too many") return put;
  const stands = state.stands.slice();
  for (const [input, stand] of put) stands[input] = stand;
  return stands;
}

const puts = new WeakMap<Circuit, Map<string, Put | "too many" | undefined>>();

/** The same claims are asked in state after state; what is always heeded stands anywhere in each. */
function putOnce(run: RunFacts, at: number, open: readonly (readonly Claim[])[]): Put | "too many" | undefined {
  const { circuit } = run.machine;
  const isFree = open.every((group) => group.every(({ term }) => circuit.inputs[term.input]?.heededBy === undefined));
  if (!isFree) return put(run, at, open);
  let known = puts.get(circuit);
  if (known === undefined) {
    known = new Map();
    puts.set(circuit, known);
  }
  const key = JSON.stringify(open);
  if (!known.has(key)) known.set(key, put(run, at, open));
  return known.get(key);
}

/** Where there are few ways to stand, each is tried; else claims are met one after the other. */
function put(run: RunFacts, at: number, open: readonly (readonly Claim[])[]): Put | "too many" | undefined {
  const named = [...new Map(open.flat().map(({ term }) => [term.input, term])).values()];
  const { circuit } = run.machine;
  const ways = named.reduce((n, { input }) => n * (circuit.inputs[input]?.positions ?? 1), 1);
  const tries = { left: MOST_TRIES };
  const done = ways <= MOST_TRIES ? tryEach(run, at, open, named, new Map()) : tryPut(run, at, open, new Map(), tries);
  return tries.left <= 0 ? "too many" : done;
}

function tryEach(
  run: RunFacts,
  at: number,
  open: readonly (readonly Claim[])[],
  named: readonly Term[],
  done: Put,
): Put | undefined {
  const { circuit } = run.machine;
  const [term, ...rest] = named;
  if (term === undefined) {
    const isMet = open.every((group) =>
      group.some((c) => standsFor(circuit, c.term, c.is).includes(done.get(c.term.input) ?? -1)),
    );
    return isMet && !isNever(circuit, foundAt(run, at).state, done) ? done : undefined;
  }
  const usual = circuit.inputs[term.input]?.usual ?? 0;
  for (const stand of [usual, ...positionsOf(circuit, term).filter((s) => s !== usual)]) {
    if (!canStand(run, at, term, stand)) continue;
    const found = tryEach(run, at, open, rest, new Map([...done, [term.input, stand]]));
    if (found !== undefined) return found;
  }
  return undefined;
}

function tryPut(
  run: RunFacts,
  at: number,
  open: readonly (readonly Claim[])[],
  done: Put,
  tries: { left: number },
): Put | undefined {
  const [group, ...rest] = open;
  if (group === undefined) return isNever(run.machine.circuit, foundAt(run, at).state, done) ? undefined : done;
  for (const { term, is } of group)
    for (const stand of standsFor(run.machine.circuit, term, is)) {
      if (tries.left-- <= 0) return undefined;
      const taken = done.get(term.input);
      if (taken !== undefined ? taken !== stand : !canStand(run, at, term, stand)) continue;
      const next = taken === undefined ? new Map([...done, [term.input, stand]]) : done;
      const found = tryPut(run, at, rest, next, tries);
      if (found !== undefined) return found;
    }
  return undefined;
}

const positionsOf = (circuit: Circuit, { input }: Term): readonly number[] =>
  Array.from({ length: circuit.inputs[input]?.positions ?? 0 }, (_, s) => s);

/** Positions of its input by which a claim comes true, the usual one first. */
function standsFor(circuit: Circuit, term: Term, is: boolean): readonly number[] {
  const input = circuit.inputs[term.input];
  if (input === undefined) return [];
  const wanted = (stand: number) => (term.kind === "engine" ? (stand === 1) === term.is : term.stands[stand] === true);
  const all = positionsOf(circuit, term).filter((s) => wanted(s) === is);
  return all.sort((a, b) => Number(b === input.usual) - Number(a === input.usual));
}

/**
 * Whether an input that the search leaves alone can be brought there: anything that is always heeded; what is heeded
 * only at times (a request, an engine that has to be cranked), if some other search found it so.
 */
function canStand(run: RunFacts, at: number, term: Term, stand: number): boolean {
  const input = run.machine.circuit.inputs[term.input];
  if (input === undefined || stand === input.usual || input.heededBy === undefined) return true;
  const { searches } = run.reachable;
  const { state } = foundAt(run, at);
  const scope = run.searchOf(at).machine.view?.scope;
  return searches.some(({ machine, first, end }) => {
    const other = machine.view?.scope;
    if (!hasInput(other, term.input)) return false;
    for (let i = first; i < end; i++) {
      const there = foundAt(run, i).state;
      const is = term.kind === "engine" ? there.latches[term.latch] === stand : there.stands[term.input] === stand;
      if (is && agree(state, scope, there, other)) return true;
    }
    return false;
  });
}

const isNever = ({ never }: Circuit, state: State, put: Put): boolean =>
  put.size > 0 &&
  never.some((set) => set.every(({ input, stand }) => (put.get(input) ?? state.stands[input]) === stand));
