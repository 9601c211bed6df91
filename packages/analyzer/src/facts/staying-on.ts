import { extraRelays } from "../behave/cold.ts";
import { onState } from "../behave/loads.ts";
import { type Machine, pointOf, within } from "../behave/machine.ts";
import type { State } from "../behave/state.ts";
import type { Circuit, Element, Load, Work } from "../circuit/circuit.ts";
import { coldRest } from "./cold.ts";
import type { Facts, LoadFact, RunFacts } from "./facts.ts";
import { type Trace, traceThrough } from "./trace.ts";
import { type Unasked, unaskedIn } from "./unasked.ts";

/**
 * On at rest with the key off, though off when power comes on with the key so. Holds of relays are told by their own
 * rule, and so is what is on unasked; but what a running engine needs counts here, for then the engine runs on.
 */
export interface StayingOn {
  readonly at: number;
  /** The found state with the whole loom come to rest around it. */
  readonly state: State;
  readonly loads: readonly Load[];
  /** The engine that runs on because it has one of them: it keeps itself alive. */
  readonly engine: Work | undefined;
  /** The way of the current through the first of them. */
  readonly trace: Trace;
  /** If that is on unasked. */
  readonly unasked: Unasked | undefined;
}

const cache = new WeakMap<RunFacts, readonly StayingOn[]>();

/** What stays on, state by state. Cost: one settling for each set of positions in which something is on. */
export function stayingOn(run: RunFacts): readonly StayingOn[] {
  let list = cache.get(run);
  if (list === undefined) {
    list = [...findStaying(run)];
    cache.set(run, list);
  }
  return list;
}

function* findStaying(run: RunFacts): Iterable<StayingOn> {
  const { machine, reachable } = run;
  const { circuit } = machine;
  const off = offSwitches(circuit);
  if (off.length === 0) return;
  for (const [at, { state, rest }] of reachable.found.entries()) {
    if (!rest || !isOff(circuit, off, state)) continue;
    const engine = circuit.works.find((w) => w.needs.length > 0 && state.latches[w.latch] === 1);
    const counts = ({ load, on, asked }: LoadFact) =>
      on === "on" && load.judge.kind !== "latch" && (asked || engine?.needs.includes(load.part));
    const on = run.loadsAt(at).filter(counts);
    if (on.length === 0 || within(run.searchOf(at).machine, (m) => extraRelays(m, state)).length > 0) continue;
    const cold = coldRest(machine, state);
    const loads = on
      .map((f) => f.load)
      .filter((load) => cold.every((s) => onState(machine, s, pointOf(machine, s), load) === "off"));
    const first = loads.find((l) => engine?.needs.includes(l.part)) ?? loads.find((l) => l.harm !== "none") ?? loads[0];
    if (first === undefined) continue;
    const whole = run.wholeAt(at);
    yield {
      at,
      state: whole,
      loads: [first, ...loads.filter((l) => l !== first)],
      engine,
      trace: traceThrough(circuit, pointOf(machine, whole), first.element),
      unasked: unaskedIn(run).find((u) => u.at === at && u.fact.load === first),
    };
  }
}

/** The key; without one, main switches; without those, every hand switch. */
function offSwitches(circuit: Circuit): readonly number[] {
  const where = (is: (i: Circuit["inputs"][number]) => boolean) =>
    circuit.inputs.flatMap((input, i) => (is(input) ? [i] : []));
  const keys = where((i) => i.isKey && !i.isMain);
  const mains = where((i) => i.isMain === true);
  return keys.length > 0 ? keys : mains.length > 0 ? mains : where((i) => i.kind === "switch");
}

/** Off, nothing requested, and the world as usual; an engine may turn only if it needs what is being looked at. */
function isOff(circuit: Circuit, off: readonly number[], state: State): boolean {
  const needy = new Set(circuit.works.filter((w) => w.needs.length > 0).map((w) => w.part));
  return circuit.inputs.every(
    (input, i) =>
      state.stands[i] === input.usual ||
      (input.kind === "world" ? needy.has(input.id) : input.kind === "switch" && !off.includes(i)),
  );
}

/** The source at the head of a trace. */
export const sourceOf = ({ circuit }: Pick<Machine, "circuit">, trace: Trace): Element | undefined =>
  trace.elements.map((i) => circuit.elements[i] as Element).find((e) => e.class === "source");

/**
 * The part whose current keeps an engine running through the same stray, gate or load by which this is on; undefined if
 * none does. What is on so, on the way and beside it, has the same cause.
 */
export function keepsEngineBy({ runs }: Facts, run: RunFacts, u: Unasked): string | undefined {
  const source = sourceOf(run.machine, u.trace);
  const isSame = ({ engine, unasked, trace }: StayingOn) =>
    engine !== undefined &&
    unasked !== undefined &&
    unasked.cause === u.cause &&
    unasked.through[0] === u.through[0] &&
    sourceOf(run.machine, trace) === source;
  return source !== undefined && runs.some((r) => stayingOn(r).some(isSame)) ? source.owner.id : undefined;
}
