import type { Circuit, Element, Load } from "../circuit/circuit.ts";
import { reached } from "./feed.ts";
import { gradeOf, type On } from "./grade.ts";
import { allClosedIn, type Machine, type Point } from "./machine.ts";
import type { State } from "./state.ts";

export type { On };

export const onState = (machine: Machine, state: State, point: Point, load: Load): On =>
  gradeOf(machine.circuit, point.closed, point.op, state, load);

/** Which loads are asked for: one end has its designed feed, the other its designed return. */
export interface Asked {
  readonly feed: Uint8Array;
  readonly return: Uint8Array;
}

export function askedIn(machine: Machine, state: State): Asked {
  return askedWith(machine.circuit, allClosedIn(machine, state));
}

/** The same by which elements conduct. */
export const askedWith = (circuit: Circuit, closed: Uint8Array): Asked => ({
  feed: reached(circuit, closed, "feed"),
  return: reached(circuit, closed, "return"),
});

export function isAskedFor(circuit: Circuit, asked: Asked, load: Load): boolean {
  const e = circuit.elements[load.element] as Element;
  return (asked.feed[e.a] === 1 && asked.return[e.b] === 1) || (asked.feed[e.b] === 1 && asked.return[e.a] === 1);
}

/** Modules none of whose loads has its designed feed: what keeps them alive is what is being examined. */
export function unfedModules(machine: Machine, state: State): ReadonlySet<string> {
  const { feed } = askedIn(machine, state);
  const fed = new Set<string>();
  const all = new Set<string>();
  for (const load of machine.circuit.loads) {
    if (load.family !== "module") continue;
    all.add(load.part);
    const e = machine.circuit.elements[load.element] as Element;
    if (feed[e.a] === 1 || feed[e.b] === 1) fed.add(load.part);
  }
  return new Set([...all].filter((m) => !fed.has(m)));
}
