import { agree } from "../behave/complete.ts";
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
    return (scope?.latches[term.latch] ?? 1) === 1 ? (state.latches[term.latch] === 1) === term.is : undefined;
  return (scope?.inputs[term.input] ?? 1) === 1 ? term.stands[state.stands[term.input] ?? 0] : undefined;
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
  const tries = { left: MOST_TRIES };
  const put = tryPut(run, at, open, new Map(), tries);
  if (tries.left <= 0) return "too many";
  if (put === undefined) return undefined;
  const stands = foundAt(run, at).state.stands.slice();
  for (const [input, stand] of put) stands[input] = stand;
  return stands;
}

function tryPut(
  run: RunFacts,
  at: number,
  open: readonly (readonly Claim[])[],
  put: Put,
  tries: { left: number },
): Put | undefined {
  const [group, ...rest] = open;
  if (group === undefined) return isNever(run.machine.circuit, foundAt(run, at).state, put) ? undefined : put;
  for (const { term, is } of group)
    for (const stand of standsFor(run.machine.circuit, term, is)) {
      if (tries.left-- <= 0) return undefined;
      const taken = put.get(term.input);
      if (taken !== undefined ? taken !== stand : !canStand(run, at, term, stand)) continue;
      const done = tryPut(run, at, rest, taken === undefined ? new Map([...put, [term.input, stand]]) : put, tries);
      if (done !== undefined) return done;
    }
  return undefined;
}

/** Positions of its input by which a claim comes true, the usual one first. */
function standsFor(circuit: Circuit, term: Term, is: boolean): readonly number[] {
  const input = circuit.inputs[term.input];
  if (input === undefined) return [];
  const wanted = (stand: number) => (term.kind === "engine" ? (stand === 1) === term.is : term.stands[stand] === true);
  const all = Array.from({ length: input.positions }, (_, s) => s).filter((s) => wanted(s) === is);
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
    if ((other?.inputs[term.input] ?? 1) === 0) return false;
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
