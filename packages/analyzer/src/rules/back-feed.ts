import { isUphill } from "../behave/feed.ts";
import { onState } from "../behave/loads.ts";
import { type Machine, opened, pointOf } from "../behave/machine.ts";
import type { State } from "../behave/state.ts";
import type { Element, Load } from "../circuit/circuit.ts";
import type { LoadFact, RunFacts } from "../facts/facts.ts";
import { type Trace, terminalsOf, traceThrough } from "../facts/trace.ts";
import { namedLoad, standing, volts } from "../facts/words.ts";
import { backFeedExamples } from "./examples/back-feed.ts";
import type { Rule, Severity, Sighting } from "./rule.ts";

export const backFeed: Rule = {
  id: "back-feed",
  title: "Something is fed backwards",
  why:
    "Current finds its way into a part that nobody switched on: through a clamp diode inside a controller, a body diode, " +
    "a pull-up, or backwards through a switch. Relays come in, controllers half wake, lamps glow.",
  source:
    "sneak paths in general: published sneak-circuit practice; the definition of designed feed is this project's own",
  severities: ["danger", "fault", "caution"],
  blindTo: "paths through parts that the loom does not show, and what happens while relays are still moving",
  examples: backFeedExamples,
  *check(facts) {
    for (const run of facts.runs)
      for (let at = 0; at < run.reachable.found.length; at++)
        for (const fact of run.loadsAt(at)) {
          if (fact.on === "off" || fact.asked) continue;
          const sighting = sightingOf(run, at, fact);
          if (sighting) yield sighting;
        }
  },
};

function sightingOf(run: RunFacts, at: number, fact: LoadFact): Sighting | undefined {
  const { machine } = run;
  const { circuit } = machine;
  const state = run.reachable.found[at]?.state as State;
  const point = pointOf(machine, state);
  const trace = traceThrough(circuit, point, fact.load.element);
  // In series with another load because the owner wants it so: two fans for half speed, a lamp before a field.
  if (
    fact.load.lowIsMeant &&
    trace.elements.some((i) => i !== fact.load.element && circuit.elements[i]?.class === "load")
  )
    return undefined;
  const cause = causeOf(machine, state, fact.load, trace);
  if (cause === undefined) return undefined;
  const e = circuit.elements[cause] as Element;
  const harm = harmOf(machine, state, fact);
  const severity: Severity = fact.on === "partly" ? "caution" : harm ? "danger" : "fault";
  const load = circuit.elements[fact.load.element] as Element;
  const across = Math.abs((point.op.volts[load.a] ?? 0) - (point.op.volts[load.b] ?? 0));
  const name = namedLoad(fact.load);
  const through = e.class === "stray" ? `the ${e.owner.says} of ${e.owner.id}` : `${e.owner.id}, backwards`;
  return {
    subjects: fact.load.part === e.owner.id ? [fact.load.part] : [fact.load.part, e.owner.id],
    severity,
    run,
    at,
    ends: state.ends,
    where: [fact.load.part, e.owner.id],
    path: terminalsOf(circuit, trace),
    title: `${name} is ${fact.on === "on" ? "on" : "partly on"} though nothing asks for it`,
    text: `With ${standing(circuit, state)} it gets ${volts(across)} through ${through}.`,
    remedy:
      e.class === "stray"
        ? `Feed ${fact.load.part} from the same switched supply as ${e.owner.id}, or put a diode in that path.`
        : `Find out why current enters ${e.owner.id} from its far side; a diode or a separate feed ends it.`,
    numbers: [{ name: `volts across ${fact.load.part}`, value: across, unit: "V" }],
    harm,
  };
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
    return (
      from !== undefined &&
      k !== at &&
      isUphill(circuit, i, k < at ? from : (trace.nodes[k - 1] ?? from), k < at ? "feed" : "return")
    );
  });
  return suspects.find((i) => !isEnergised(opened(machine, [i]), state, load));
}

/** On or partly by its own volts or amps, whatever its latch remembers. */
function isEnergised(machine: Machine, state: State, load: Load): boolean {
  const point = pointOf(machine, state);
  if (load.judge.kind === "latch") return (point.drives[load.judge.latch] ?? 0) > load.judge.partlyAbove;
  return onState(machine, state, point, load) !== "off";
}

/** Whether something that can crank, move, pump fuel or burn is on because of it. */
function harmOf(machine: Machine, state: State, fact: LoadFact): boolean {
  if (fact.on !== "on") return false;
  if (fact.load.harm !== "none") return true;
  const contacts = machine.circuit.contactsOf.get(fact.load.part) ?? [];
  if (fact.load.judge.kind !== "latch" || contacts.length === 0) return false;
  const cut = opened(machine, contacts);
  return machine.circuit.loads.some(
    (l) =>
      l.harm !== "none" &&
      onState(machine, state, pointOf(machine, state), l) === "on" &&
      onState(cut, state, pointOf(cut, state), l) !== "on",
  );
}
