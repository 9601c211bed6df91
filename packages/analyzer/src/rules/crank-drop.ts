import type { Search, WorldMove } from "../behave/explore.ts";
import { eventsOf, type Flight } from "../behave/flight.ts";
import { askedIn, isAskedFor } from "../behave/loads.ts";
import { hasInput, hasLatches } from "../behave/scope.ts";
import type { State } from "../behave/state.ts";
import type { Circuit } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { type Turn, turnsOf } from "../facts/turns.ts";
import { eventsWords, named } from "../facts/words.ts";
import { crankDropExamples } from "./examples/crank-drop.ts";
import type { Rule, Sighting } from "./rule.ts";

export const crankDrop: Rule = {
  id: "crank-drop",
  title: "A controller is lost while cranking",
  why:
    "Some contacts of a key open while it cranks, and the starter pulls the battery down. A controller that goes off " +
    "then gives neither fuel nor spark: the engine fires only when the key springs back, or not at all.",
  source:
    "ISO 7637 and ISO 16750-2 tell of the supply while cranking; that keys drop accessories then is common practice, no source",
  severities: ["fault", "caution"],
  blindTo:
    "a start button that is no key, the first dip of the battery, relays that chatter in the sag, and keys turned " +
    "straight through while the supply is at its least or most or the coils are hot or cold",
  examples: crankDropExamples,
  *check(facts) {
    const wanted = neededIn(facts.circuit);
    if (wanted.length > 0) for (const run of facts.runs) yield* dropsIn(run, wanted);
  },
};

/** Electronics that must be on while the engine is cranked, and the latches of which one is on then. */
interface Needed {
  readonly part: string;
  readonly latches: readonly number[];
}

/** What an engine needs, where the loom says so; else every controller. */
function neededIn(circuit: Circuit): readonly Needed[] {
  const said = circuit.works.flatMap((w) => w.needs);
  const parts = said.length > 0 ? said : circuit.controllers;
  return [...new Set(parts)].flatMap((part) => {
    const latches = circuit.loads.flatMap((l) =>
      l.part === part && l.judge.kind === "latches" ? l.judge.latches : [],
    );
    return latches.length > 0 ? [{ part, latches: [...new Set(latches)] }] : [];
  });
}

const isOn = ({ latches }: Needed, s: State): boolean => latches.some((l) => s.latches[l] === 1);

function* dropsIn(run: RunFacts, wanted: readonly Needed[]): Generator<Sighting> {
  const { circuit } = run.machine;
  for (const [key, { isKey, cranks = [] }] of circuit.inputs.entries()) {
    if (!isKey || cranks.length === 0) continue;
    const told = new Set<string>();
    const { searches } = run.reachable;
    const movedBy = ({ machine: { view } }: Search) =>
      wanted.filter((n) => hasInput(view?.scope, key) && hasLatches(view?.scope, n.latches));
    const known = new Set<Needed>();
    for (const search of searches) {
      const own = movedBy(search).filter((n) => !known.has(n));
      if (own.length === 0) continue;
      const asked = (state: State, move: WorldMove): boolean =>
        move.kind === "inputs" &&
        move.set.some(({ input }) => input === key) &&
        !cranks.includes(state.stands[key] ?? -1) &&
        own.some((n) => isOn(n, state));
      // What needed electronics do hangs on nothing that the search leaves out: one that leaves out no move is enough.
      for (const n of own) known.add(n);
      const left = () => own.forEach((n) => void known.delete(n));
      for (const turn of turnsOf(run, search, { hand: "quick", asked, left }))
        for (const needed of own) {
          const sighting = dropOn(run, turn, key, cranks, needed);
          if (sighting === undefined || told.has(`${needed.part} ${sighting.severity}`)) continue;
          told.add(`${needed.part} ${sighting.severity}`);
          yield sighting;
        }
    }
  }
}

/** Whether something needed goes off on the way into cranking: for as long as it cranks, or for a moment. */
function dropOn(
  run: RunFacts,
  { from, move, course }: Turn,
  key: number,
  cranks: readonly number[],
  needed: Needed,
): Sighting | undefined {
  const before = run.reachable.found[from]?.state;
  if (before === undefined || !isOn(needed, before)) return undefined;
  const ends = course.moments.filter(
    ({ isLanded, flight }) => isLanded && cranks.includes(flight.state.stands[key] ?? -1),
  );
  if (ends.length === 0) return undefined;
  const off = ends.filter(({ flight }) => !isOn(needed, flight.state));
  const lost = off[0] ?? ends.find(({ flight }) => resets(needed, flight));
  if (lost === undefined || !isRightlyOn(run, from, needed)) return undefined;
  const isLost = off.length > 0;
  const { circuit } = run.machine;
  const name = named(needed.part, labelOf(circuit, needed.part));
  const keyName = circuit.inputs[key];
  return {
    subjects: [needed.part],
    severity: isLost ? "fault" : "caution",
    run,
    at: undefined,
    ends: lost.flight.state.ends,
    after: {
      from,
      move,
      events: eventsOf(lost.flight),
      says: eventsWords(circuit, eventsOf(lost.flight)),
    },
    isPossible: isLost ? off.length < ends.length : ends.some(({ flight }) => !resets(needed, flight)),
    where: [needed.part, keyName?.id ?? ""],
    path: [],
    title: isLost ? `${name} is off while cranking` : `${name} can restart at every start`,
    text: isLost
      ? `It is on with the key at ${keyName?.stands[before.stands[key] ?? 0]}, and off for as long as the engine is cranked.`
      : "On the way of the key to crank it loses its supply for longer than it can wait.",
    remedy: isLost
      ? `Feed ${needed.part} from a contact that stays closed while cranking.`
      : `Feed ${needed.part} from a contact that does not open on the way, or let it hold itself for 0.3 s.`,
    numbers: [],
    harm: false,
  };
}

/** On by its own feed, not by a hold or backwards: what was never rightly on is not lost. */
function isRightlyOn(run: RunFacts, at: number, { part }: Needed): boolean {
  const { machine } = run;
  const asked = askedIn(machine, run.wholeAt(at));
  return machine.circuit.loads.some((l) => l.part === part && isAskedFor(machine.circuit, asked, l));
}

/** Whether it went off on the way there. */
const resets = ({ latches }: Needed, flight: Flight): boolean =>
  eventsOf(flight).some((e) => e.kind === "latch" && !e.on && latches.includes(e.latch));

const labelOf = (circuit: Circuit, part: string): string => circuit.loads.find((l) => l.part === part)?.label ?? "";
