import type { Circuit, Element, Load, Output, Sense } from "../circuit/circuit.ts";
import { isSwitched } from "../facts/joined.ts";
import { terminalsOf } from "../facts/trace.ts";
import {
  alwaysOn,
  carriersOf,
  isJoint,
  oneWith,
  partsOn,
  polesOf,
  reachedFrom,
  type Way,
  wayBetween,
} from "../facts/ways.ts";
import { list, namedLoad } from "../facts/words.ts";
import { wrongSideExamples } from "./examples/wrong-side.ts";
import { inEveryState, type Rule, type Sighting } from "./rule.ts";

export const wrongSide: Rule = {
  id: "wrong-side",
  title: "Something is switched on the wrong side",
  why:
    "A load works only between feed and ground, and an input heeds only the side it wants. With ground on both ends, or " +
    "battery on an input that waits for ground, the switch or output acts and nothing happens.",
  source: "common practice, no source",
  severities: ["fault", "caution"],
  blindTo: "inputs whose loom does not say what they want, and the body of a part whose case is not drawn",
  examples: wrongSideExamples,
  *check({ circuit }) {
    const sides = sidesOf(circuit);
    for (const one of loadsOnOneSide(circuit, sides)) yield loadSighting(one);
    for (const sense of circuit.senses) yield* inputOnWrongSide(circuit, sides, sense);
    yield* groundsSwitchedInVain(circuit);
  },
};

/** Nodes that feed, or a return, can ever come to; and those that have it whatever is switched. */
interface Sides {
  readonly feed: Uint8Array;
  readonly return: Uint8Array;
  readonly alwaysFeed: Uint8Array;
  readonly alwaysReturn: Uint8Array;
}

const sidesOf = (circuit: Circuit): Sides => ({
  feed: reachedFrom(circuit, polesOf(circuit, "feed"), "feed", carriersOf(circuit, "feed")),
  return: reachedFrom(circuit, polesOf(circuit, "return"), "return", carriersOf(circuit, "return")),
  alwaysFeed: alwaysOn(circuit, "feed"),
  alwaysReturn: alwaysOn(circuit, "return"),
});

interface OneSided {
  readonly load: Load;
  readonly isGround: boolean;
  readonly outputs: readonly OutputHere[];
}

/** Loads of which both ends can get ground only, or feed only, and electronics switch one of them. */
export function loadsOnOneSide(circuit: Circuit, sides = sidesOf(circuit)): readonly OneSided[] {
  return circuit.loads.flatMap((load) => {
    const e = circuit.elements[load.element] as Element;
    const ends = [e.a, e.b];
    const can = (side: Uint8Array) => ends.every((n) => side[n] === 1);
    const cannot = (side: Uint8Array) => ends.every((n) => side[n] === 0);
    const isGround = can(sides.return) && cannot(sides.feed);
    if (!isGround && !(can(sides.feed) && cannot(sides.return))) return [];
    const outputs = ends.flatMap((n) => outputsOn(circuit, sides, n)).filter((o) => o.part !== load.part);
    return outputs.length === 0 || outputs.some((o) => o.givesBoth) ? [] : [{ load, isGround, outputs }];
  });
}

function loadSighting({ load, isGround, outputs }: OneSided): Sighting {
  const pins = [...new Set(outputs.map((o) => o.pin))];
  const [side, missing] = isGround ? ["ground", "feed"] : ["feed", "ground"];
  return inEveryState({
    subjects: [load.part, ...pins],
    severity: "fault",
    where: [load.part, ...new Set(outputs.map((o) => o.part))],
    path: pins,
    title: `${namedLoad(load)} gets ${side} on both ends`,
    text: `${list(pins)} can only give it ${side}, and nothing gives its other end ${missing}.`,
    remedy: isGround
      ? `Feed the other end of ${load.part} through a fuse, or switch its feed with a relay.`
      : `Take the other end of ${load.part} to ground.`,
  });
}

interface OutputHere extends Output {
  readonly pin: string;
}

/** Outputs that switch this net: with the end that is not joined to feed or ground for good. */
function outputsOn(circuit: Circuit, sides: Sides, node: number): readonly OutputHere[] {
  const net = oneWith(circuit, node, (e) => isJoint(e, -1) || e.protects);
  return circuit.outputs.flatMap((o) => {
    const e = circuit.elements[o.element] as Element;
    const end = [e.a, e.b].find((n) => net[n] === 1 && sides.alwaysFeed[n] === 0 && sides.alwaysReturn[n] === 0);
    return end === undefined ? [] : [{ ...o, pin: circuit.nodes[end] ?? "" }];
  });
}

/** A switch or contact gives an input the side that it does not want, and nothing ever gives it the other. */
function* inputOnWrongSide(circuit: Circuit, sides: Sides, sense: Sense): Iterable<Sighting> {
  const wantsGround = sense.wants === "ground";
  const [given, wanted] = wantsGround ? [sides.feed, sides.return] : [sides.return, sides.feed];
  if (given[sense.node] === 0 || wanted[sense.node] === 1) return;
  const side = wantsGround ? "feed" : "return";
  const carries = carriersOf(circuit, side);
  const rests = reachedFrom(circuit, polesOf(circuit, side), side, (e, i) => carries(e, i) && !isSwitched(e));
  // Tied or pulled to one side for good, it is out of use on purpose, or waits for what the loom does not show.
  if (rests[sense.node] === 1) return;
  const way = wayTo(circuit, sense.node, side);
  const net = oneWith(circuit, sense.node);
  // A lamp or coil on the same wire pulls it the other way while the switch is open.
  const isPulled = circuit.elements.some(
    (e) => e.class === "load" && ((net[e.a] === 1 && wanted[e.b] === 1) || (net[e.b] === 1 && wanted[e.a] === 1)),
  );
  if (isPulled || outputsOn(circuit, sides, sense.node).some((o) => o.givesBoth)) return;
  const part = sense.terminal.slice(0, sense.terminal.indexOf("."));
  const parts = way === undefined ? [] : partsOn(circuit, way);
  const [wants, gets] = wantsGround ? ["ground", "battery"] : ["battery", "ground"];
  yield inEveryState({
    subjects: [sense.terminal],
    severity: "fault",
    where: [part, ...parts.filter((p) => p !== part)],
    path: way === undefined ? [] : terminalsOf(circuit, way),
    title: `${sense.terminal} wants ${wants} and is given ${gets}`,
    text: `What is switched on ${sense.terminal} gives it ${gets}, and nothing ever gives it ${wants}.`,
    remedy: `Let the switch take ${sense.terminal} to ${wants}.`,
  });
}

/** Shortest way of feed to a node, or from a node to ground. */
function wayTo(circuit: Circuit, node: number, side: "feed" | "return"): Way | undefined {
  const carries = carriersOf(circuit, side);
  const ways = polesOf(circuit, side).flatMap(
    (pole) =>
      (side === "feed" ? wayBetween(circuit, pole, node, carries) : wayBetween(circuit, node, pole, carries)) ?? [],
  );
  return ways.sort((a, b) => a.elements.length - b.elements.length)[0];
}

/** Both sides of a contact or output are ground by wires or the body of a part: it switches nothing. */
function* groundsSwitchedInVain(circuit: Circuit): Iterable<Sighting> {
  const ground = reachedFrom(circuit, polesOf(circuit, "return"), "either", isJoint);
  for (const e of circuit.elements) {
    if (e.class !== "gate" || e.oneWay || e.protects || e.a === e.b || ground[e.a] === 0 || ground[e.b] === 0) continue;
    const way = wayBetween(circuit, e.a, e.b, isJoint);
    if (way === undefined) continue;
    const parts = partsOn(circuit, way).filter((p) => p !== e.owner.id);
    yield inEveryState({
      subjects: [e.owner.id],
      severity: "caution",
      where: [e.owner.id, ...parts],
      path: terminalsOf(circuit, way),
      title: `${e.owner.id} switches a ground that is always there`,
      text: `Both sides of ${e.owner.id} are ground${parts.length > 0 ? `, through ${list(parts.slice(0, 3))}` : ""}. Opening it stops nothing.`,
      remedy: "Switch the feed instead, or take the other way to ground off.",
    });
  }
}
