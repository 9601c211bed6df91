import { reached } from "../behave/feed.ts";
import { askedWith, isAskedFor, type On } from "../behave/loads.ts";
import { closedIn } from "../behave/machine.ts";
import { type State, withLatches } from "../behave/state.ts";
import type { Circuit, Element, Latch, Load } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { namedLoad } from "../facts/words.ts";
import { chatterId } from "./chatter.ts";
import { unreachableExamples } from "./examples/unreachable.ts";
import type { Rule, Sighting } from "./rule.ts";
import { loadsOnOneSide } from "./wrong-side.ts";

export const unreachable: Rule = {
  id: "unreachable",
  title: "Something never comes on",
  why:
    "No position of any switch, in any order, turns it on: its coil gets too few volts, its drive is missing, a diode " +
    "blocks it, or two coils share one feed in series.",
  source: "common practice, no source",
  severities: ["fault"],
  blindTo: "loads that a module switches by logic which the loom does not tell, and inputs that the loom leaves out",
  examples: unreachableExamples,
  *check(facts) {
    // A part with a terminal in the air, or with ground on both ends, is told as that.
    const told = new Set([
      ...facts.circuit.openEnds.map((e) => e.part),
      ...loadsOnOneSide(facts.circuit).map(({ load }) => load.part),
    ]);
    for (const run of facts.runs)
      for (const { load, best } of bestOf(run))
        if (best !== "on" && !told.has(load.part) && !buzzes(run, load) && !hangsOnLogic(facts.circuit, load))
          yield sightingOf(run, load, best);
  },
};

interface Best {
  readonly load: Load;
  readonly best: On;
}

/** The most that each relay and load ever does. Electronics are left out: what they do is their own affair. */
function bestOf(run: RunFacts): readonly Best[] {
  const order: readonly On[] = ["off", "partly", "on"];
  const isMore = (on: On, than: On) => order.indexOf(on) > order.indexOf(than);
  const byLoad = new Map<Load, On>();
  for (let at = 0; at < run.reachable.found.length; at++)
    for (const { load, on } of run.loadsAt(at)) {
      const known = byLoad.get(load);
      if (known === undefined || isMore(on, known)) byLoad.set(load, on);
    }
  const best = new Map<string, Best>();
  // Of two windings that do as much the first is told, whichever search came to it first.
  for (const load of run.machine.circuit.loads) {
    const on = byLoad.get(load);
    const known = best.get(load.part)?.best;
    if (on === undefined || load.family === "module") continue;
    if (known === undefined || isMore(on, known)) best.set(load.part, { load, best: on });
  }
  return [...best.values()].filter((b) => !(b.load.lowIsMeant && b.best === "partly"));
}

/** A relay that goes in and out without end does come in. */
const buzzes = ({ reachable }: RunFacts, { judge }: Load): boolean =>
  judge.kind === "latch" && reachable.restless.some((r) => r.latches.includes(judge.latch));

/** What would feed it, if what buzzes came to rest one way or the other. */
function buzzBefore({ machine, reachable }: RunFacts, load: Load): string | undefined {
  const { circuit } = machine;
  const isFed = (state: State) => isAskedFor(circuit, askedWith(circuit, closedIn(machine, state)), load);
  const before = reachable.restless.find(({ latches, state }) => waysOf(state, latches).some(isFed));
  return before && chatterId(circuit, before);
}

/** The state with some latches either way, in every combination. */
const waysOf = (state: State, latches: readonly number[]): readonly State[] =>
  latches
    .slice(0, MOST_EITHER_WAY)
    .reduce((states, l) => states.flatMap((s) => [withLatches(s, [l], false), withLatches(s, [l], true)]), [state]);
const MOST_EITHER_WAY = 6;

/** Joined to feed and return only through outputs of electronics: whether those ever act is not for the loom to tell. */
function hangsOnLogic(circuit: Circuit, load: Load): boolean {
  const isJoined = (closed: Uint8Array) => {
    const [feed, back] = [reached(circuit, closed, "feed"), reached(circuit, closed, "return")];
    const e = circuit.elements[load.element] as Element;
    return (feed[e.a] === 1 && back[e.b] === 1) || (feed[e.b] === 1 && back[e.a] === 1);
  };
  const all = new Uint8Array(circuit.elements.length).fill(1);
  return isJoined(all) && !isJoined(all.map((_, i) => (isOutput(circuit, circuit.elements[i] as Element) ? 0 : 1)));
}

const isOutput = (circuit: Circuit, e: Element): boolean =>
  e.closed.flat().some((set) => set.literals.some((l) => l.kind === "latch" && !isOfRelay(circuit.latches[l.latch])));

const isOfRelay = (latch: Latch | undefined): boolean => latch?.kind === "armature" || latch?.kind === "contact";

function sightingOf(run: RunFacts, load: Load, best: On): Sighting {
  const isRelay = load.judge.kind === "latch";
  const buzz = buzzBefore(run, load);
  return {
    subjects: [load.part],
    severity: "fault",
    run,
    at: undefined,
    // It holds whatever the relays are: no history leads to it.
    ends: new Uint8Array(),
    where: [load.part],
    path: [],
    title: `${namedLoad(load)} never ${isRelay ? "comes in" : "comes on"}`,
    text:
      best === "partly"
        ? "In no position of any switch does it get enough volts to work; at best it is half on."
        : "No position of any switch, in any order, feeds it.",
    remedy: `Follow its feed and its return from ${load.part} back to the battery; one of them is never closed.`,
    numbers: [],
    harm: false,
    ...(buzz === undefined ? {} : { explainedBy: buzz }),
  };
}
