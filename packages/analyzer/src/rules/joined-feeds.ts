import { isUphill } from "../behave/feed.ts";
import type { Circuit, Element } from "../circuit/circuit.ts";
import {
  alwaysJoined,
  bridges,
  commandOf,
  endIn,
  isSwitched,
  loadsBehind,
  loadsOn,
  netsTouched,
  otherEnd,
} from "../facts/joined.ts";
import { carriersOf, isJoint, polesOf, reachedFrom } from "../facts/ways.ts";
import { list, namedLoad } from "../facts/words.ts";
import { joinedFeedsExamples } from "./examples/joined-feeds.ts";
import { inEveryState, type Rule, type Sighting } from "./rule.ts";

export const joinedFeeds: Rule = {
  id: "joined-feeds",
  title: "Two switches feed the same wire",
  why:
    "Either of them turns on all that hangs there. Often that is wanted: a switch beside a relay. Two outputs of one key " +
    "joined together seldom are: the key then feeds both in every position that should feed one.",
  source: "common practice, no source",
  severities: ["caution", "note"],
  blindTo: "whether either is meant to turn on all of it, and switches that join on the ground side",
  examples: joinedFeedsExamples,
  *check({ circuit }) {
    const always = alwaysJoined(circuit);
    const bridged = bridges(circuit).map((b) => b.net);
    for (const net of netsTouched(circuit, isSwitched, isFusedJoint)) {
      const nodes = [...net.keys()].filter((n) => net[n] === 1);
      // What always has feed or ground is nobody's to switch; a bridge of outputs is told as a conflict.
      if (nodes.some((n) => always[n] === 1 || bridged.some((b) => b[n] === 1))) continue;
      // On the way from one contact to the next there is nothing to turn on.
      if (loadsOn(circuit, net).length === 0) continue;
      const feeders = feedersOf(circuit, net);
      const sighting = keySighting(circuit, nodes, feeders) ?? eitherSighting(circuit, nodes, feeders);
      if (sighting !== undefined) yield sighting;
    }
  },
};

/** A fuse on the way makes no other net: what is on one side is on the other. */
const isFusedJoint = (e: Element): boolean => isJoint(e, -1) || e.protects;

interface Feeder {
  readonly element: Element;
  /** Where it meets the net. */
  readonly terminal: string;
  /** What moves it: two with the same are one. */
  readonly mover: string;
}

/** Contacts and outputs that can feed this net from outside. */
function feedersOf(circuit: Circuit, net: Uint8Array): readonly Feeder[] {
  const around = circuit.elements.flatMap((element, i) => {
    const end = isSwitched(element) ? endIn(element, net) : undefined;
    return end === undefined ? [] : [{ element, i, end }];
  });
  if (around.length < 2) return [];
  const carries = carriersOf(circuit, "feed");
  const poles = polesOf(circuit, "feed");
  /** What is fed from outside the net while a contact is closed. */
  const fedBeside = (contact: Element): Uint8Array =>
    reachedFrom(
      circuit,
      poles,
      "feed",
      (e, i) => carries(e, i) && net[e.a] === 0 && net[e.b] === 0 && !areApart(e, contact),
    );
  const outputs = new Set(circuit.outputs.map((o) => o.element));
  const coils = loadsOn(circuit, net).flatMap((l) => (l.judge.kind === "latch" ? [l.part] : []));
  return around.flatMap(({ element, i, end }) => {
    const outside = otherEnd(element, end);
    if (fedBeside(element)[outside] === 0 || isUphill(circuit, i, outside, "feed")) return [];
    // A relay that feeds its own coil keeps itself in; that is told as a hold.
    if (coils.includes(element.owner.id)) return [];
    return {
      element,
      terminal: circuit.nodes[end] ?? "",
      mover: outputs.has(i) ? commandOf(element) : element.owner.id,
    };
  });
}

/** Make and rest contact of one relay: a rest contact passes on nothing that comes through its own make contact. */
const areApart = (one: Element, other: Element): boolean =>
  one.closed.every((a) =>
    other.closed.every((b) => latchesIn(a).some((x) => latchesIn(b).some((y) => x.latch === y.latch && x.is !== y.is))),
  );

const latchesIn = (sets: Element["closed"][number]) =>
  sets.flatMap(({ negated, literals }) => (negated ? [] : literals.filter((l) => l.kind === "latch")));

/** Two outputs of one key that some position keeps apart. */
function keySighting(circuit: Circuit, nodes: readonly number[], feeders: readonly Feeder[]): Sighting | undefined {
  const keys = new Set(circuit.inputs.filter((i) => i.isKey && !i.isMain).map((i) => i.id));
  for (const one of feeders)
    for (const two of feeders) {
      const isOneKey = keys.has(one.mover) && one.mover === two.mover && one.terminal < two.terminal;
      if (!isOneKey || commandOf(one.element) === commandOf(two.element)) continue;
      return inEveryState({
        subjects: [one.terminal, two.terminal],
        severity: "caution",
        where: [one.mover],
        path: [one.terminal, two.terminal],
        title: `Outputs ${one.terminal} and ${two.terminal} of one key are joined`,
        text: `The key keeps them apart in some position. Joined, either feeds ${loadWords(circuit, nodes)}.`,
        remedy: "Give each output its own wire, or put a diode in one of them.",
      });
    }
  return undefined;
}

function eitherSighting(circuit: Circuit, nodes: readonly number[], feeders: readonly Feeder[]): Sighting | undefined {
  if (new Set(feeders.map((f) => f.mover)).size < 2) return undefined;
  const terminals = [...new Set(feeders.map((f) => f.terminal))];
  const parts = [...new Set(feeders.map((f) => f.element.owner.id))];
  return inEveryState({
    subjects: terminals,
    severity: "note",
    where: parts,
    path: terminals,
    title: `${list(terminals.slice(0, 3), "or")} feeds the same wire`,
    text: `Any one of them turns on ${loadWords(circuit, nodes)}.`,
    remedy: "If that is not meant, give each a wire of its own or a diode.",
  });
}

/** What hangs on these nodes, in words. */
function loadWords(circuit: Circuit, nodes: readonly number[]): string {
  const few = [...new Set(loadsBehind(circuit, nodes).map(namedLoad))];
  return few.length > 4 ? `${few.slice(0, 3).join(", ")} and ${few.length - 3} more` : list(few);
}
