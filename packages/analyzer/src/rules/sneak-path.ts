import type { Element } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { terminalsOf } from "../facts/trace.ts";
import { type Unasked, unaskedIn, voltsAcross } from "../facts/unasked.ts";
import { list, namedLoad, standing, volts } from "../facts/words.ts";
import { sneakPathExamples } from "./examples/sneak-path.ts";
import { explained, type Rule, type Sighting, severityOfUnasked } from "./rule.ts";

export const sneakPath: Rule = {
  id: "sneak-path",
  title: "Something is on through another load",
  why:
    "Two circuits meant to be apart share a lamp, a coil or a return. When one is on, its current also runs through the " +
    "other: lamps glow, relays come in, motors turn slowly.",
  source:
    "sneak paths in general: published sneak-circuit practice; the definition of designed feed is this project's own",
  severities: ["danger", "fault", "caution", "note"],
  blindTo: "loads in series that the loom does not mark as meant low, and what happens while relays are still moving",
  examples: sneakPathExamples,
  *check(facts) {
    for (const run of facts.runs) {
      const works = new Set(loadsEverAsked(run));
      for (const u of unaskedIn(run))
        if (u.cause === undefined && othersOf(run, u).length > 0)
          yield { ...sightingOf(run, u, works.has(u.fact.load.element)), ...explained(facts, run, u) };
    }
  },
};

/** Parts whose loads it is on through. Its own are its maker's affair: a pull-in winding returns through the motor. */
const othersOf = ({ machine }: RunFacts, { fact, through }: Unasked): readonly string[] =>
  [...new Set(through.map((i) => (machine.circuit.elements[i] as Element).owner.id))].filter(
    (id) => id !== fact.load.part,
  );

/** Loads with designed feed and return in some state. One that never has both hangs between loads on purpose. */
function* loadsEverAsked(run: RunFacts): Iterable<number> {
  for (let at = 0; at < run.reachable.found.length; at++)
    for (const { load, asked } of run.loadsAt(at)) if (asked) yield load.element;
}

function sightingOf(run: RunFacts, u: Unasked, isEverAsked: boolean): Sighting {
  const { circuit } = run.machine;
  const { load, on } = u.fact;
  const owners = othersOf(run, u);
  const across = voltsAcross(run, u);
  return {
    subjects: [load.part, ...owners.slice(0, 1)],
    severity: isEverAsked ? severityOfUnasked(on, u.harm) : "note",
    run,
    at: u.at,
    ends: u.state.ends,
    where: [load.part, ...owners],
    path: terminalsOf(circuit, u.trace),
    title: `${namedLoad(load)} is ${on === "on" ? "on" : "partly on"} through ${list(owners.slice(0, 2))}`,
    text: `With ${standing(circuit, u.state)}, it gets ${volts(across)}, though nothing asks for it.`,
    remedy: `Give ${load.part} and ${owners[0] ?? "the other"} feeds and returns of their own, or put a diode between them.`,
    numbers: [{ name: `volts across ${load.part}`, value: across, unit: "V" }],
    harm: u.harm,
  };
}
