import type { Event } from "../behave/flight.ts";
import { ALWAYS, type Circuit, type Element, type Latch } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { type NearHold, nearHoldsIn } from "../facts/near-hold.ts";
import { BOUNCE_SECONDS, type Overlap, overlapsIn } from "../facts/overlap.ts";
import { terminalsOf } from "../facts/trace.ts";
import { isCarrier, type Way, wayBetween } from "../facts/ways.ts";
import { eventsWords, eventWords, list, millis, named, standing } from "../facts/words.ts";
import { releaseOverlapExamples } from "./examples/release-overlap.ts";
import type { Rule, Sighting } from "./rule.ts";

export const releaseOverlap: Rule = {
  id: "release-overlap",
  title: "Two relays are in together while they change over",
  why:
    "A relay needs some milliseconds to let go, and with a diode across its coil tens of them. If another pulls in " +
    "meanwhile, both are in together for a moment: a bridge of relays then shorts the battery, and a fuse blows only " +
    "when the direction is changed without a pause.",
  source:
    "release times by suppression: application note 13C3311 (its table from memory); a meeting shorter than 1 ms of bounce does not count: common practice, no source",
  severities: ["danger", "caution"],
  blindTo:
    "meetings that last less than a contact bounces, contacts that weld, and, while the supply is at its least or most " +
    "or the coils are hot or cold, hands that turn straight on",
  examples: releaseOverlapExamples,
  *check(facts) {
    for (const run of facts.runs) {
      for (const overlap of overlapsIn(run)) yield sightingOf(run, overlap);
      for (const near of nearHoldsIn(run)) if (near.least < SPREAD_SECONDS) yield nearSighting(run, near);
    }
  },
};

/** Release times of common relays lie so far apart, from none to a diode across the coil: 1.5 ms to 20 ms, from memory. */
const SPREAD_SECONDS = 18.5e-3;

function nearSighting(run: RunFacts, { from, move, latch, by, least, most, state, before }: NearHold): Sighting {
  const { circuit } = run.machine;
  const [relay, other] = [circuit.latches[latch] as Latch, circuit.latches[by] as Latch];
  const words = (l: number, on: boolean) => eventWords(circuit, { kind: "latch", latch: l, on });
  const isOn = state.latches[by] === 0;
  return {
    subjects: [relay.part, other.part],
    severity: "caution",
    run,
    at: undefined,
    ends: state.ends,
    after: {
      from,
      move,
      says: [...eventsWords(circuit, before), words(latch, false), `${millis(least)} later ${words(by, isOn)}`],
    },
    where: [relay.part, other.part],
    path: [],
    title: `${named(relay.part, relay.label)} lets go in time by only ${millis(least)}`,
    text: `${words(by, isOn)} that much later. Were it the other way round, ${relay.part} would hold itself in.`,
    remedy: `Take away the way by which ${relay.part} could hold itself; do not count on which relay is faster.`,
    numbers: [
      { name: "time to spare", value: least * 1e3, unit: "ms", limit: SPREAD_SECONDS * 1e3 },
      { name: "at the most", value: most * 1e3, unit: "ms" },
    ],
    harm: false,
  };
}

function sightingOf(run: RunFacts, overlap: Overlap): Sighting {
  const { circuit } = run.machine;
  const { way, from, move, state, before, lasting, surely } = overlap;
  const parts = [...new Set(way.gates.map((g) => (circuit.elements[g] as Element).owner.id))];
  const relays = parts.filter((p) => circuit.contactsOf.has(p));
  const told = relays.length > 0 ? relays : parts;
  const isShort = way.kind === "short";
  const met = wayOf(circuit, way);
  const ends = lasting.events.at(-1);
  return {
    subjects: told,
    severity: isShort ? "danger" : "caution",
    run,
    at: undefined,
    ends: state.ends,
    after: { from, move, events: lasting.events, says: saysOf(circuit, before, lasting.events) },
    isPossible: surely <= BOUNCE_SECONDS,
    where: [...new Set([...parts, ...(met?.elements ?? []).map((i) => (circuit.elements[i] as Element).owner.id)])],
    path: met === undefined ? [] : terminalsOf(circuit, met),
    title: isShort
      ? `${list(told)} short the supply while they change over`
      : `${list(told)} join two feeds while they change over`,
    text:
      `With ${standing(circuit, state)}, both are in together for up to ${millis(lasting.most)}.` +
      (ends === undefined ? "" : ` It ends only when ${eventWords(circuit, ends)}.`),
    remedy: isShort
      ? "Use changeover relays, which cannot both be in the way, or let each one's rest contact feed the other's coil."
      : "Let the rest contact of one feed the coil of the other.",
    numbers: [
      { name: "longest time together", value: lasting.most * 1e3, unit: "ms" },
      { name: "surely together for", value: surely * 1e3, unit: "ms", limit: BOUNCE_SECONDS * 1e3 },
    ],
    harm: isShort,
  };
}

/** From pole to pole through what is always closed and the contacts that meet. */
function wayOf(circuit: Circuit, { kind, gates }: Overlap["way"]): Way | undefined {
  const passes = (e: Element, i: number) => isCarrier(e, i) && !e.series && (e.closed === ALWAYS || gates.includes(i));
  for (const feed of circuit.poles)
    for (const other of circuit.poles) {
      const isEnd = kind === "short" ? other.way === "return" && other.source === feed.source : other.way === "feed";
      const met = feed.way === "feed" && isEnd && other !== feed && wayBetween(circuit, feed.node, other.node, passes);
      if (met && gates.every((g) => met.elements.includes(g))) return met;
    }
  return undefined;
}

/** What happened on the way, up to the end of the meeting. */
function saysOf(circuit: Circuit, before: readonly Event[], all: readonly Event[]): readonly string[] {
  return [...eventsWords(circuit, before), "they meet", ...eventsWords(circuit, all.slice(before.length))];
}
