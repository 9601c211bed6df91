import { pointOf } from "../behave/machine.ts";
import type { Circuit, Element, Guard, Load } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { type Trace, terminalsOf, traceThrough } from "../facts/trace.ts";
import { list, named, namedLoad, standing } from "../facts/words.ts";
import { guardBypassedExamples } from "./examples/guard-bypassed.ts";
import type { Rule, Sighting } from "./rule.ts";

export const guardBypassed: Rule = {
  id: "guard-bypassed",
  title: "A safety switch does not stop what it should",
  why:
    "An isolator, a kill switch, a seat or clutch switch is there to stop something. When another path feeds or returns " +
    "it, it cranks in gear, or the engine runs on from the alternator with the battery cut off.",
  source: "common practice, no source",
  severities: ["danger", "fault"],
  blindTo:
    "guards other than isolators whose loom does not say what they stop, and the time that something needs to run down",
  examples: guardBypassedExamples,
  *check({ circuit, runs }) {
    for (const run of runs)
      for (const guard of circuit.guards)
        for (const { stand, parts } of guard.stops) {
          yield* loadsNotStopped(run, guard, stand, parts);
          yield* worksNotStopped(run, guard, stand, parts);
        }
  },
};

type Parts = Guard["stops"][number]["parts"];
const mustStop = (load: Load, parts: Parts): boolean =>
  parts === undefined ? load.harm !== "none" && load.judge.kind !== "latch" : parts.includes(load.part);

/** States at rest in which the switch stands where it stops. */
const stoppedIn = (run: RunFacts, guard: Guard, stand: number): readonly number[] =>
  run.reachable.found.flatMap(({ state, rest }, at) => (rest && state.stands[guard.input] === stand ? [at] : []));

/** Loads that are on although the switch stands where it stops them. */
function* loadsNotStopped(run: RunFacts, guard: Guard, stand: number, parts: Parts): Iterable<Sighting> {
  for (const at of stoppedIn(run, guard, stand))
    for (const { load, on } of run.loadsAt(at))
      if (on === "on" && mustStop(load, parts)) yield loadSighting(run, at, guard, load);
}

function loadSighting(run: RunFacts, at: number, guard: Guard, load: Load): Sighting {
  const { circuit } = run.machine;
  const state = run.reachable.found[at]?.state;
  if (state === undefined) throw new Error(`guard-bypassed: no state ${at}`);
  const own = traceThrough(circuit, pointOf(run.machine, state), load.element);
  // Behind a relay, what gets round the guard is most often the way to its coil.
  const relay = relayOn(circuit, own);
  const coil = relay === undefined ? undefined : traceThrough(circuit, pointOf(run.machine, state), relay.coil);
  const told = ownersOn(circuit, own).filter((id) => id !== load.part);
  const more = coil === undefined ? [] : ownersOn(circuit, coil).filter((id) => id !== relay?.part);
  return {
    ...sightingOf(run, at, guard, load.part, namedLoad(load), load.harm !== "none"),
    where: [...new Set([guard.part, load.part, ...told, ...more])],
    path: terminalsOf(circuit, coil ?? own),
    text:
      `With ${standing(circuit, state)}, it is still on. Its current comes through ${list(told.slice(0, 4))}` +
      (relay === undefined ? "." : `, and ${relay.part} is in through ${list(more.slice(0, 4))}.`),
  };
}

/** A relay whose contact lies on the way, with the element of its coil. */
function relayOn(circuit: Circuit, trace: Trace) {
  for (const [part, contacts] of circuit.contactsOf) {
    const coil = circuit.loads.find((l) => l.part === part && l.judge.kind === "latch");
    if (coil !== undefined && contacts.some((i) => trace.elements.includes(i))) return { part, coil: coil.element };
  }
  return undefined;
}

/** What a person would look at along the way: no wires, and neither fuses nor the battery where there is anything else. */
function ownersOn(circuit: Circuit, trace: Trace): readonly string[] {
  const parts = trace.elements.map((i) => circuit.elements[i] as Element).filter((e) => e.owner.kind === "part");
  const telling = parts.filter((e) => !e.protects && e.supply !== "rest" && e.class !== "load");
  return [...new Set((telling.length > 0 ? telling : parts).map((e) => e.owner.id))];
}

/** Engines and the like, which draw no current of their own. */
function* worksNotStopped(run: RunFacts, guard: Guard, stand: number, parts: Parts): Iterable<Sighting> {
  const { circuit } = run.machine;
  for (const { part, label, latch } of circuit.works) {
    if (parts === undefined || !parts.includes(part) || circuit.loads.some((l) => l.part === part)) continue;
    for (const at of stoppedIn(run, guard, stand))
      if (run.reachable.found[at]?.state.latches[latch] === 1)
        yield sightingOf(run, at, guard, part, named(part, label), false);
  }
}

function sightingOf(run: RunFacts, at: number, guard: Guard, part: string, name: string, harm: boolean): Sighting {
  const { circuit } = run.machine;
  const state = run.reachable.found[at]?.state;
  if (state === undefined) throw new Error(`guard-bypassed: no state ${at}`);
  return {
    subjects: [guard.part, part],
    severity: harm ? "danger" : "fault",
    run,
    at,
    ends: state.ends,
    where: [guard.part, part],
    path: [],
    title: `${guard.part} does not stop ${name}`,
    text: `With ${standing(circuit, state)}, it still works.`,
    remedy: `Lead every way that feeds or frees ${part} through ${guard.part}.`,
    numbers: [],
    harm,
  };
}
