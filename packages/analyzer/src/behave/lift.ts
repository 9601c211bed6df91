import type { Circuit, Input } from "../circuit/circuit.ts";
import { type Edge, type Found, isInert, type Reachable, type WorldMove } from "./explore.ts";
import type { Machine } from "./machine.ts";
import type { Scope } from "./scope.ts";
import { type State, withStand } from "./state.ts";

// A request that only turns a lamp moves no relay. Searched once without it, the rest need not settle again for each of
// its positions: the states are those found, with the request standing either way.

/** Inputs that a scope has besides those of a search, if that search can be lifted by them: nothing in it hangs on them. */
export function liftingInputs(circuit: Circuit, from: Scope, of: Reachable, to: Scope): readonly number[] | undefined {
  if (of.restless.length > 0 || of.rattling.length > 0 || !of.complete) return undefined;
  if (to.latches.some((x, i) => x !== from.latches[i]) || from.inputs.some((x, i) => x > (to.inputs[i] as number)))
    return undefined;
  const more = circuit.inputs.flatMap((input, i) => (to.inputs[i] === 1 && from.inputs[i] === 0 ? [{ input, i }] : []));
  const isFree = ({ input, i }: { readonly input: Input; readonly i: number }) =>
    input.moves.every((m) => m.via === undefined) && !circuit.never.some((set) => set.some((c) => c.input === i));
  return more.length > 0 && more.every(isFree) ? more.map(({ i }) => i) : undefined;
}

/** @param machine views the larger scope; @param of everything found without these inputs */
export function lifted(machine: Machine, of: Reachable, inputs: readonly number[]): Reachable {
  const { circuit } = machine;
  const after = new Map<number, Edge[]>();
  for (const e of of.edges) {
    const list = after.get(e.from);
    if (list === undefined) after.set(e.from, [e]);
    else list.push(e);
  }
  const found: (Found & { readonly under: number })[] = [];
  const edges: Edge[] = [];
  const index = new Map<string, number>();
  const arrive = (from: number, under: number, state: State, how: Omit<Edge, "from" | "to">) => {
    let to = index.get(state.key);
    if (to === undefined) {
      to = found.length;
      index.set(state.key, to);
      const { rest } = of.found[under] as Found;
      found.push({ state, before: from, move: how.move, events: how.events, rest, under });
    }
    edges.push({ ...how, from, to });
  };
  /** The found state below, with the inputs standing as they do in `like`. */
  const above = (under: number, like: State | undefined): State =>
    inputs.reduce(
      (s, i) => withStand(s, i, like?.stands[i] ?? (s.stands[i] as number)),
      (of.found[under] as Found).state,
    );
  for (const e of after.get(-1) ?? []) arrive(-1, e.to, above(e.to, undefined), e);
  for (let at = 0; at < found.length; at++) {
    const { state, under } = found[at] as (typeof found)[number];
    for (const e of after.get(under) ?? []) arrive(at, e.to, above(e.to, state), e);
    for (const i of inputs)
      for (const m of (circuit.inputs[i] as Input).moves) {
        if (m.from !== state.stands[i] || isInert(circuit.inputs[i] as Input, m.to, state)) continue;
        const move: WorldMove = { kind: "inputs", set: [{ input: i, stand: m.to }] };
        arrive(at, under, withStand(state, i, m.to), { move, events: [], tempted: [] });
      }
  }
  return { ...of, machine, found, edges };
}
