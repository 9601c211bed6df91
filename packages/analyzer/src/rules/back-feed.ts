import type { Element } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { terminalsOf } from "../facts/trace.ts";
import { type Unasked, unaskedIn, voltsAcross } from "../facts/unasked.ts";
import { namedLoad, standing, volts } from "../facts/words.ts";
import { backFeedExamples } from "./examples/back-feed.ts";
import { explained, type Rule, type Sighting, severityOfUnasked } from "./rule.ts";

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
      for (const u of unaskedIn(run))
        if (u.cause !== undefined) yield { ...sightingOf(run, u, u.cause), ...explained(facts, run, u) };
  },
};

function sightingOf(run: RunFacts, u: Unasked, cause: number): Sighting {
  const { circuit } = run.machine;
  const { load, on } = u.fact;
  const e = circuit.elements[cause] as Element;
  const across = voltsAcross(run, u);
  const through = e.class === "stray" ? `the ${e.owner.says} of ${e.owner.id}` : `${e.owner.id}, backwards`;
  return {
    subjects: load.part === e.owner.id ? [load.part] : [load.part, e.owner.id],
    severity: severityOfUnasked(on, u.harm),
    run,
    at: u.at,
    ends: u.state.ends,
    where: [load.part, e.owner.id],
    path: terminalsOf(circuit, u.trace),
    title: `${namedLoad(load)} is ${on === "on" ? "on" : "partly on"} though nothing asks for it`,
    text: `With ${standing(circuit, u.state)}, it gets ${volts(across)} through ${through}.`,
    remedy:
      e.class === "stray"
        ? `Feed ${load.part} from the same switched supply as ${e.owner.id}, or put a diode in that path.`
        : `Find out why current enters ${e.owner.id} from its far side; a diode or a separate feed ends it.`,
    numbers: [{ name: `volts across ${load.part}`, value: across, unit: "V" }],
    harm: u.harm,
  };
}
