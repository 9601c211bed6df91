import type { Circuit, Literal, LiteralSet, Logic } from "../circuit/circuit.ts";
import type { Outside } from "./learned.ts";
import type { State } from "./state.ts";

/**
 * The inputs and latches that one search moves. Everything else stands as usual, and nothing that the search decides
 * may hang on it: a decision that does names what is missing, and the search begins again with that as well.
 *
 * Why this is exact: what moves inside a scope then hangs on nothing outside, so a history of the whole loom, seen
 * through the scope, is a history of the scope; and the rest can always wait. The states found are all those of the
 * whole loom, seen through the scope.
 */
export interface Scope {
  /** One byte an input and a latch: 1 is inside. */
  readonly inputs: Uint8Array;
  readonly latches: Uint8Array;
}

/** An input or a latch as one number: inputs first. */
export type Variable = number;

export const latchVariable = (circuit: Circuit, latch: number): Variable => circuit.inputs.length + latch;

/** The scope of these variables and of what goes with them in any case. */
export function scopeOf(circuit: Circuit, variables: Iterable<Variable>): Scope {
  const scope: Scope = {
    inputs: new Uint8Array(circuit.inputs.length),
    latches: new Uint8Array(circuit.latches.length),
  };
  const open = [...variables];
  for (let v = open.pop(); v !== undefined; v = open.pop()) {
    const latch = v - circuit.inputs.length;
    const side = latch < 0 ? scope.inputs : scope.latches;
    const at = latch < 0 ? v : latch;
    if (side[at] === 1) continue;
    side[at] = 1;
    if (latch >= 0) {
      const { needs, carries, carriedBy } = circuit.latches[latch] ?? {};
      for (const l of [needs, carries?.latch, carriedBy]) if (l !== undefined) open.push(latchVariable(circuit, l));
      continue;
    }
    // Nobody heeds a request while its module sleeps; what can never be together is moved together.
    for (const l of circuit.inputs[at]?.heededBy ?? []) open.push(latchVariable(circuit, l));
    for (const set of circuit.never) if (set.some((c) => c.input === at)) open.push(...set.map((c) => c.input));
  }
  return scope;
}

export const variablesOf = (circuit: Circuit, scope: Scope): readonly Variable[] => [
  ...[...scope.inputs.keys()].filter((i) => scope.inputs[i] === 1),
  ...[...scope.latches.keys()].filter((l) => scope.latches[l] === 1).map((l) => latchVariable(circuit, l)),
];

/** Whether an input or a latch is inside. No scope is the whole loom. */
export const hasInput = (scope: Scope | undefined, input: number): boolean => scope?.inputs[input] !== 0;
export const hasLatch = (scope: Scope | undefined, latch: number): boolean => scope?.latches[latch] !== 0;

export const hasLatches = (scope: Scope | undefined, latches: readonly number[]): boolean =>
  latches.every((l) => hasLatch(scope, l));

export const hasVariable = (scope: Scope, v: Variable): boolean =>
  v < scope.inputs.length ? hasInput(scope, v) : hasLatch(scope, v - scope.inputs.length);

export const isInside = (inner: Scope, outer: Scope): boolean =>
  isSubset(inner.inputs, outer.inputs) && isSubset(inner.latches, outer.latches);

function isSubset(inner: Uint8Array, outer: Uint8Array): boolean {
  for (let i = 0; i < inner.length; i++) if ((inner[i] as number) > (outer[i] as number)) return false;
  return true;
}

/** Whether something holds, as far as a scope can tell. */
export const NO = 0;
export const YES = 1;
export const MAYBE = 2;
export type Tri = typeof NO | typeof YES | typeof MAYBE;

/** What a search can see: its scope, and what is known of latches outside. */
export interface Sight {
  readonly scope: Scope;
  readonly outside?: Outside | undefined;
}

/** Logic in a state; seen through a scope, literals outside it are not known. Asked so often that it makes nothing new. */
export function logicIn(logic: Logic, s: State, sight?: Sight): Tri {
  let result: Tri = NO;
  for (const sets of logic) {
    const all = allIn(sets, s, sight);
    if (all === YES) return YES;
    if (all === MAYBE) result = MAYBE;
  }
  return result;
}

function allIn(sets: Logic[number], s: State, sight: Sight | undefined): Tri {
  let all: Tri = YES;
  for (const set of sets) {
    const is = setIn(set, s, sight);
    if (is === NO) return NO;
    if (is === MAYBE) all = MAYBE;
  }
  return all;
}

function setIn({ literals, negated }: LiteralSet, s: State, sight: Sight | undefined): Tri {
  let all: Tri = YES;
  for (const l of literals) {
    const is = literalIn(l, s, sight);
    if (is === NO) return negated ? YES : NO;
    if (is === MAYBE) all = MAYBE;
  }
  return all === MAYBE ? MAYBE : negated ? NO : YES;
}

function literalIn(l: Literal, s: State, sight: Sight | undefined): Tri {
  switch (l.kind) {
    case "constant":
      return l.is ? YES : NO;
    case "latch":
      return latchIn(l.latch, l.is, s, sight);
    case "input":
      if (sight !== undefined && sight.scope.inputs[l.input] === 0) return MAYBE;
      return l.stands[s.stands[l.input] ?? 0] ? YES : NO;
    default:
      return l satisfies never;
  }
}

function latchIn(latch: number, wanted: boolean, s: State, sight: Sight | undefined): Tri {
  if (sight === undefined || sight.scope.latches[latch] === 1) return (s.latches[latch] === 1) === wanted ? YES : NO;
  const is = sight.outside?.is(latch, s) ?? MAYBE;
  return is === MAYBE ? MAYBE : (is === YES) === wanted ? YES : NO;
}

/** Whether a sight can tell anything of some literal: if of none, this logic is the same in every state. */
export const isSeen = (logic: Logic, { scope, outside }: Sight): boolean =>
  logic.some((sets) =>
    sets.some(({ literals }) =>
      literals.some((l) =>
        l.kind === "latch"
          ? hasLatch(scope, l.latch) || outside?.knows(l.latch) === true
          : l.kind === "input" && hasInput(scope, l.input),
      ),
    ),
  );

/** The variables outside a scope that leave this logic undecided. */
export function missingIn(circuit: Circuit, logic: Logic, s: State, sight: Sight): readonly Variable[] {
  const missing = new Set<Variable>();
  for (const sets of logic) {
    if (sets.some((set) => setIn(set, s, sight) === NO)) continue;
    for (const set of sets)
      for (const l of set.literals)
        if (literalIn(l, s, sight) !== MAYBE) continue;
        else if (l.kind === "latch") missing.add(latchVariable(circuit, l.latch));
        else if (l.kind === "input") missing.add(l.input);
  }
  return [...missing];
}
