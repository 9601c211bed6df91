import type { Circuit, Latch } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { type Race, racesIn } from "../facts/races.ts";
import { eventsWords, eventWords, list, millis, named } from "../facts/words.ts";
import { raceExamples } from "./examples/race.ts";
import type { Rule, Sighting } from "./rule.ts";

export const race: Rule = {
  id: "race",
  title: "Which relay is faster decides what happens",
  why:
    "Two relays move at the same time, and each takes something from the other. Which one wins changes with heat, age " +
    "and the maker of the relay. Then the same turn of the key does one thing today and another tomorrow.",
  source: "common practice, no source; times of relays: see the relay family",
  severities: ["fault"],
  blindTo:
    "differences smaller than 0.3 ms, contact bounce, and hands that turn a switch on before relays have settled",
  examples: raceExamples,
  *check(facts) {
    for (const run of facts.runs) for (const one of racesIn(run)) yield sightingOf(run, one);
  },
};

function sightingOf(run: RunFacts, { from, move, one, other, ahead, behind, decides, state, before }: Race): Sighting {
  const { circuit } = run.machine;
  const parts = [one, other].map((e) => partOf(circuit, e.kind === "latch" ? e.latch : -1));
  const left = decides.map((l) => circuit.latches[l] as Latch);
  const [first, second] = [eventWords(circuit, one), eventWords(circuit, other)];
  return {
    subjects: parts,
    severity: "fault",
    run,
    at: undefined,
    ends: state.ends,
    after: {
      from,
      move,
      says: [...eventsWords(circuit, before), `${first} before ${second}, or after`],
    },
    where: [...new Set([...parts, ...left.map((l) => l.part)])],
    path: [],
    title: `Which of ${list([...new Set(parts)])} is faster decides what happens`,
    text:
      (ahead + behind < SAME_SECONDS
        ? `${first} at the same moment as ${second}. `
        : `${first} up to ${millis(ahead)} before ${second}, or up to ${millis(behind)} after. `) +
      `That decides whether ${list([...new Set(left.map((l) => named(l.part, l.label)))].slice(0, 3))} ends in or out.`,
    remedy: `Take the coil of ${parts[1] ?? ""} off what ${parts[0] ?? ""} moves, or choose which must win and make it so.`,
    numbers: [
      { name: `${parts[0] ?? ""} ahead by at most`, value: ahead * 1e3, unit: "ms" },
      { name: `${parts[1] ?? ""} ahead by at most`, value: behind * 1e3, unit: "ms" },
    ],
    harm: false,
  };
}

/** What is told as no time at all. */
const SAME_SECONDS = 5e-5;

const partOf = (circuit: Circuit, latch: number): string => circuit.latches[latch]?.part ?? "";
