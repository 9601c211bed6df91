import { naturalOrder } from "@loomproof/netlist";
import type { Restless } from "../behave/explore.ts";
import type { Circuit, Latch } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { list, named, standing } from "../facts/words.ts";
import { chatterExamples } from "./examples/chatter.ts";
import type { Rule, Sighting } from "./rule.ts";

export const chatter: Rule = {
  id: "chatter",
  title: "A relay buzzes",
  why: "When it pulls in, it takes away what pulled it in; when it lets go, it gets it back. It buzzes, its contacts burn, and what it feeds stutters.",
  source: "common practice, no source",
  severities: ["fault", "caution"],
  blindTo: "bounce of contacts, and flashers, which are meant to",
  examples: chatterExamples,
  *check(facts) {
    for (const run of facts.runs) {
      for (const restless of run.reachable.restless) yield sightingOf(run, restless, true);
      for (const rattling of run.reachable.rattling)
        if (rattling.latches.some((l) => run.machine.circuit.latches[l]?.kind === "armature"))
          yield sightingOf(run, rattling, false);
    }
  },
};

/** The relays among what moves; anything else only where there is none. */
function toldOf(circuit: Circuit, { latches }: Restless): readonly Latch[] {
  const moving = latches.map((i) => circuit.latches[i] as Latch);
  const relays = moving.filter((l) => l.kind === "armature");
  return relays.length > 0 ? relays : moving;
}

const partsOf = (latches: readonly Latch[]): readonly string[] => [...new Set(latches.map((l) => l.part))];

/** The finding that tells of it. */
export const chatterId = (circuit: Circuit, restless: Restless): string =>
  `${chatter.id}:${partsOf(toldOf(circuit, restless)).toSorted(naturalOrder).join("+")}`;

/** @param isEndless nothing comes to rest; else some order of events does, and another goes round before it does */
function sightingOf(run: RunFacts, restless: Restless, isEndless: boolean): Sighting {
  const { circuit } = run.machine;
  const told = toldOf(circuit, restless);
  const parts = partsOf(told);
  const names = list(parts.map((p) => named(p, told.find((l) => l.part === p)?.label ?? "")));
  return {
    subjects: parts,
    severity: isEndless ? "fault" : "caution",
    run,
    at: undefined,
    ends: restless.state.ends,
    after: {
      from: restless.from,
      move: restless.move,
      says: [isEndless ? "it never comes to rest" : "it rattles before it comes to rest"],
    },
    isPossible: !isEndless,
    where: parts,
    path: [],
    title: isEndless
      ? `${names} ${parts.length > 1 ? "buzz" : "buzzes"}`
      : `${names} may rattle before ${parts.length > 1 ? "they come" : "it comes"} to rest`,
    text: isEndless
      ? `With ${standing(circuit, restless.state)}, it pulls in and lets go again, without end.`
      : `With ${standing(circuit, restless.state)}, it can pull in and let go several times, until something slower has moved.`,
    remedy: `Feed the coil of ${parts[0] ?? ""} from a point that does not change when it moves.`,
    numbers: [],
    harm: false,
  };
}
