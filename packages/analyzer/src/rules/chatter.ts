import type { Restless } from "../behave/explore.ts";
import type { Latch } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { list, named, standing } from "../facts/words.ts";
import { chatterExamples } from "./examples/chatter.ts";
import type { Rule, Sighting } from "./rule.ts";

export const chatter: Rule = {
  id: "chatter",
  title: "A relay buzzes",
  why: "When it pulls in, it takes away what pulled it in; when it lets go, it gets it back. It buzzes, its contacts burn, and what it feeds stutters.",
  source: "common practice, no source",
  severities: ["fault"],
  blindTo: "a relay that rattles a few times and then comes to rest, and flashers, which are meant to",
  examples: chatterExamples,
  *check(facts) {
    for (const run of facts.runs) for (const restless of run.reachable.restless) yield sightingOf(run, restless);
  },
};

function sightingOf(run: RunFacts, restless: Restless): Sighting {
  const { circuit } = run.machine;
  const moving = restless.latches.map((i) => circuit.latches[i] as Latch);
  const relays = moving.filter((l) => l.kind === "armature");
  const told = relays.length > 0 ? relays : moving;
  const parts = [...new Set(told.map((l) => l.part))];
  const names = list(parts.map((p) => named(p, told.find((l) => l.part === p)?.label ?? "")));
  return {
    subjects: parts,
    severity: "fault",
    run,
    at: undefined,
    ends: restless.state.ends,
    after: { from: restless.from, move: restless.move, says: ["it never comes to rest"] },
    where: parts,
    path: [],
    title: `${names} ${parts.length > 1 ? "buzz" : "buzzes"}`,
    text: `With ${standing(circuit, restless.state)} it pulls in and lets go again, without end.`,
    remedy: `Feed the coil of ${parts[0] ?? ""} from a point that does not change when it moves.`,
    numbers: [],
    harm: false,
  };
}
