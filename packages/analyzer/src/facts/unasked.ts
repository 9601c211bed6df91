import { agree } from "../behave/complete.ts";
import { isUphill } from "../behave/feed.ts";
import { onState } from "../behave/loads.ts";
import { type Machine, opened, pointOf } from "../behave/machine.ts";
import type { State } from "../behave/state.ts";
import type { Element, Load } from "../circuit/circuit.ts";
import type { LoadFact, RunFacts } from "./facts.ts";
import { type Trace, traceThrough } from "./trace.ts";

/** A load that is on or partly on in a found state though nothing asks for it. */
export interface Unasked {
  readonly at: number;
  /** The found state with the whole loom come to rest around it. */
  readonly state: State;
  readonly fact: LoadFact;
  readonly trace: Trace;
  /** The stray or uphill gate without which it would not be on; undefined if its current comes through loads only. */
  readonly cause: number | undefined;
  /** Other loads on its path. */
  readonly through: readonly number[];
  /** Something that can crank, move, pump fuel or burn is on because of it. */
  readonly harm: boolean;
}

const cache = new WeakMap<RunFacts, readonly Unasked[]>();

/** Every load that is on unasked, in every found state. Cost: one solve a suspect on its path. */
export function unaskedIn(run: RunFacts): readonly Unasked[] {
  let list = cache.get(run);
  if (list === undefined) {
    list = run.reachable.found.flatMap((_, at) =>
      run
        .loadsAt(at)
        .filter((fact) => fact.on !== "off" && !fact.asked)
        .flatMap((fact) => lookAt(run, at, fact) ?? []),
    );
    cache.set(run, list);
  }
  return list;
}

function lookAt(run: RunFacts, at: number, fact: LoadFact): Unasked | undefined {
  const state = run.wholeAt(at);
  const { machine } = run;
  const { circuit } = machine;
  const { element } = fact.load;
  const trace = traceThrough(circuit, pointOf(machine, state), element);
  const through = trace.elements.filter((i) => i !== element && circuit.elements[i]?.class === "load");
  // In series with another load because the owner wants it so: two fans for half speed, a lamp before a field.
  if (fact.load.lowIsMeant && through.length > 0) return undefined;
  const cause = causeOf(machine, state, fact.load, trace);
  return { at, state, fact, trace, cause, through, harm: harmOf(run, at, state, fact) };
}

/** The first stray or uphill gate on the path without which the load would not be on. */
function causeOf(machine: Machine, state: State, load: Load, trace: Trace): number | undefined {
  const { circuit } = machine;
  const at = trace.elements.indexOf(load.element);
  const suspects = trace.elements.filter((i, k) => {
    const e = circuit.elements[i] as Element;
    if (e.class === "stray") return true;
    // Nodes stand between elements: the current enters element k from the node before it.
    const from = trace.nodes[k - 1];
    return from !== undefined && k !== at && isUphill(circuit, i, from, k < at ? "feed" : "return");
  });
  return suspects.find((i) => !isEnergised(opened(machine, [i]), state, load));
}

/** On or partly by its own volts or amps, whatever its latch remembers. */
function isEnergised(machine: Machine, state: State, load: Load): boolean {
  const point = pointOf(machine, state);
  if (load.judge.kind === "latch") return (point.drives[load.judge.latch] ?? 0) > load.judge.partlyAbove;
  return onState(machine, state, point, load) !== "off";
}

function harmOf(run: RunFacts, at: number, state: State, { load, on }: LoadFact): boolean {
  const { circuit } = run.machine;
  if (on !== "on") return false;
  if (load.harm !== "none") return true;
  const { judge } = load;
  const contacts = circuit.contactsOf.get(load.part) ?? [];
  if (judge.kind !== "latch" || contacts.length === 0) return false;
  const { scope } = run.searchOf(at).machine.view ?? {};
  return run.reachable.searches.some((search) => {
    const other = search.machine.view?.scope;
    if (!search.loads.some((l) => circuit.loads[l]?.harm !== "none") || other?.latches[judge.latch] === 0) return false;
    for (let i = search.first; i < search.end; i++) {
      const there = run.reachable.found[i]?.state;
      if (there === undefined || !agree(state, scope, there, other)) continue;
      for (const fact of run.loadsAt(i))
        if (fact.load.harm !== "none" && fact.on === "on" && stops(run.machine, contacts, run.wholeAt(i), fact.load))
          return true;
    }
    return false;
  });
}

/** Whether a load that is on goes off once these contacts open. */
function stops(machine: Machine, contacts: readonly number[], state: State, load: Load): boolean {
  const cut = opened(machine, contacts);
  return onState(cut, state, pointOf(cut, state), load) !== "on";
}

/** Volts across a load in a found state. */
export function voltsAcross({ machine }: RunFacts, { state, fact }: Unasked): number {
  const { volts } = pointOf(machine, state).op;
  const e = machine.circuit.elements[fact.load.element] as Element;
  return Math.abs((volts[e.a] ?? 0) - (volts[e.b] ?? 0));
}
