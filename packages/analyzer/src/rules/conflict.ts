import type { Found } from "../behave/explore.ts";
import type { Circuit, Element } from "../circuit/circuit.ts";
import type { RunFacts } from "../facts/facts.ts";
import { bridges, parallelFuses } from "../facts/joined.ts";
import { terminalsOf } from "../facts/trace.ts";
import { isCarrier, partsOn, type Way, wayBetween } from "../facts/ways.ts";
import { list, standing, volts } from "../facts/words.ts";
import { conflictExamples } from "./examples/conflict.ts";
import { inEveryState, type Rule, type Severity, type Sighting } from "./rule.ts";

/** Batteries of one system differ by less, however flat one is: common practice, no source. */
const SAME_SYSTEM = 1.3;
/** A regulated supply for sensors gives clearly less than the system does: common practice, no source. */
const REGULATED_SHARE = 0.8;

export const conflict: Rule = {
  id: "conflict",
  title: "Two things feed the same wire",
  why:
    "Two batteries that are joined with no charger running empty each other, and a fault is fed by both. Two fuses on one " +
    "wire let twice the current pass. Two joined outputs each work both loads, and neither can be switched off alone.",
  source: "common practice, no source",
  severities: ["fault", "caution", "note"],
  blindTo:
    "whether a joint of batteries is meant for other reasons than a held button; outputs of opposite sense are told as a short",
  examples: conflictExamples,
  *check(facts) {
    const { circuit } = facts;
    const supplies = suppliesOf(circuit);
    for (const run of facts.runs) if (supplies.length > 1) yield* suppliesJoined(run, supplies);
    for (const { fuses, node } of parallelFuses(circuit)) yield fusesSighting(circuit, fuses, node);
    for (const { wire, pins, parts, loads } of bridges(circuit)) {
      const e = circuit.elements[wire.element] as Element;
      const [one = "", two = ""] = pins;
      yield inEveryState({
        subjects: pins,
        severity: "fault",
        where: [...new Set(parts), wire.id, ...loads],
        path: [...new Set([one, circuit.nodes[e.a] ?? "", circuit.nodes[e.b] ?? "", two])],
        title: `${one} and ${two} are joined by ${wire.id}`,
        text: `Either output works ${list(loads.slice(0, 3))}, and neither can switch its own load off alone.`,
        remedy: `Take out ${wire.id}: each output then has its own load.`,
      });
    }
  },
};

interface Supply {
  readonly kind: "battery" | "regulated" | "other";
  readonly element: number;
  readonly node: number;
  readonly part: string;
  readonly volts: number;
}

/** Every source whose feed pole other things may hang on. */
const suppliesOf = (circuit: Circuit): readonly Supply[] =>
  circuit.poles.flatMap((p): Supply[] => {
    const e = circuit.elements[p.source] as Element;
    if (p.way !== "feed" || e.class !== "source") return [];
    const isSmall = e.supply === undefined && e.emf < REGULATED_SHARE * circuit.systemVolts;
    const kind = e.supply === "rest" ? "battery" : isSmall ? "regulated" : "other";
    return [{ kind, element: p.source, node: p.node, part: e.owner.id, volts: e.emf }];
  });

/** Two supplies whose poles meet through what is closed, in a state at rest. */
function* suppliesJoined(run: RunFacts, supplies: readonly Supply[]): Iterable<Sighting> {
  const { circuit } = run.machine;
  const pairs = supplies.flatMap((one, i) => supplies.slice(i + 1).map((two) => [one, two] as const));
  const fighting = pairs.filter(
    ([one, two]) =>
      one.part !== two.part &&
      (one.kind === "regulated" || two.kind === "regulated" || (one.kind === "battery" && two.kind === "battery")),
  );
  if (fighting.length === 0) return;
  const { found, searches } = run.reachable;
  const places = searches.flatMap((s) =>
    s.meets.has("meeting") ? found.slice(s.first, s.end).map((_, k) => s.first + k) : [],
  );
  for (const at of places) {
    const { state, rest } = found[at] as Found;
    if (!rest) continue;
    const closed = run.closedAt(at);
    const meets = (e: Element, i: number) => closed[i] === 1 && isCarrier(e, i) && !e.series && !e.oneWay;
    for (const [one, two] of fighting) {
      if (closed[one.element] !== 1 || closed[two.element] !== 1) continue;
      const way = wayBetween(circuit, one.node, two.node, meets);
      if (way === undefined) continue;
      const batteries = one.kind === "battery" && two.kind === "battery";
      const isCharged = () =>
        supplies.some(
          (s) => s.kind === "other" && closed[s.element] === 1 && wayBetween(circuit, s.node, one.node, meets),
        );
      if (batteries && isCharged()) continue;
      const severity = batteries ? severityOfBatteries(circuit, way, [one, two], state.stands) : "fault";
      yield joinedSighting(run, at, one, two, way, severity);
    }
  }
}

/** Joined for good, by a main switch, or only while a hand holds a button, two like batteries are meant to be. */
function severityOfBatteries(
  circuit: Circuit,
  way: Way,
  [one, two]: readonly [Supply, Supply],
  stands: Uint8Array,
): Severity {
  const [least, most] = [Math.min(one.volts, two.volts), Math.max(one.volts, two.volts)];
  if (most > least * SAME_SYSTEM) return "fault";
  const isHeld = circuit.inputs.some((input, i) => input.springs?.includes(stands[i] ?? 0));
  const moved = way.elements.flatMap((i) => (circuit.elements[i] as Element).closed.flat().flatMap((s) => s.literals));
  const isMeant = moved.every((l) => l.kind === "input" && circuit.inputs[l.input]?.isMain);
  return isHeld || isMeant ? "note" : "fault";
}

function joinedSighting(run: RunFacts, at: number, one: Supply, two: Supply, way: Way, severity: Severity): Sighting {
  const { circuit } = run.machine;
  const state = run.reachable.found[at]?.state;
  const between = partsOn(circuit, way).filter((p) => p !== one.part && p !== two.part);
  const batteries = one.kind === "battery" && two.kind === "battery";
  const when = state === undefined ? "" : standing(circuit, state);
  return {
    subjects: [one.part, two.part],
    severity,
    run,
    at,
    ends: state?.ends,
    where: [one.part, two.part, ...between],
    path: terminalsOf(circuit, way),
    title: batteries
      ? `${one.part} and ${two.part} are joined with no charger running`
      : `${one.part} and ${two.part} feed one wire`,
    text: batteries
      ? `With ${when}, they are one${between.length > 0 ? ` through ${list(between.slice(0, 3))}` : ""}. One empties the other, and both feed a fault.`
      : `With ${when}, a supply of ${volts(one.volts)} meets one of ${volts(two.volts)}.`,
    remedy: batteries
      ? "Join them only while something charges, or put a diode or relay between."
      : `Keep ${one.part} and ${two.part} apart.`,
    numbers: [
      { name: `volts of ${one.part}`, value: one.volts, unit: "V" },
      { name: `volts of ${two.part}`, value: two.volts, unit: "V" },
    ],
    harm: false,
  };
}

function fusesSighting(circuit: Circuit, fuses: readonly number[], node: number): Sighting {
  const ids = [...new Set(fuses.map((i) => (circuit.elements[i] as Element).owner.id))];
  const joint = circuit.nodes[node] ?? "";
  const behind = circuit.elements.flatMap((e) =>
    e.owner.kind === "wire" && (e.a === node || e.b === node) ? [e.owner.from, e.owner.to] : [],
  );
  const at = behind.map((t) => t.slice(0, t.indexOf("."))).filter((p) => !ids.includes(p));
  return inEveryState({
    subjects: ids,
    severity: "caution",
    where: [...ids, ...new Set(at)],
    path: [joint],
    title: `${list(ids)} feed one wire`,
    text: "A fault behind them is fed by all of them together. Pulling one leaves the wire live.",
    remedy: `Give each fuse a wire of its own, or take ${ids[1] ?? ""} off.`,
  });
}
