import { ampacity } from "@loomproof/netlist";
import type { Found } from "../behave/explore.ts";
import { elementsAt } from "../behave/feed.ts";
import { logicIn, NO, YES } from "../behave/scope.ts";
import type { Circuit, Element, Logic, Pole, WireFact } from "../circuit/circuit.ts";
import type { Facts, RunFacts } from "../facts/facts.ts";
import { amps, list } from "../facts/words.ts";
import { unfusedExamples } from "./examples/unfused.ts";
import type { Rule, Sighting } from "./rule.ts";

// Customary lengths without a fuse: 33 CFR 183.455 allows 7 in (178 mm) from the source, 40 in (1 016 mm) if the
// conductor is in a sheath. The trade commonly allows a hand's length more: common practice, no source.
const TAIL_M = 0.178;
const SHEATHED_TAIL_M = 1.016;
const SHORT_M = 0.3;
const SIZE_UNKNOWN_MM2 = 1;

export const unfused: Rule = {
  id: "unfused",
  title: "A wire has no fuse",
  why: "If its insulation chafes through to metal, the battery gives all it has until the wire glows. A fuse near the source ends that.",
  source: "33 CFR 183.455 and 183.425 Table 5 (read)",
  severities: ["danger", "note"],
  blindTo: "alternators and other sources inside modules, which limit their own current, and where a wire really runs",
  examples: unfusedExamples,
  *check(facts) {
    const tails: Stretch[] = [];
    for (const pole of facts.circuit.poles) {
      const source = facts.circuit.elements[pole.source] as Element;
      if (pole.way !== "feed" || !source.supply) continue;
      for (const stretch of stretchesFrom(facts, pole, source)) {
        if (stretch.wires.length === 0) continue;
        const custom = customOf(facts.circuit, stretch);
        if (custom === "tail") tails.push(stretch);
        else yield sightingOf(facts.circuit, stretch, custom);
      }
    }
    if (tails.length > 0) yield tailsSighting(tails);
  },
};

interface Stretch {
  readonly source: string;
  /** Wires that would carry more than they can, in natural order. */
  readonly wires: readonly WireFact[];
  readonly nodes: ReadonlySet<number>;
  readonly lengthM: number;
  /** The wire that would fare worst, the first if none would. */
  readonly worst: WireFact | undefined;
  /** Amps at a dead short at the end of that wire. */
  readonly shortAmps: number;
  readonly carriesAmps: number;
}

interface Reached {
  readonly node: number;
  readonly ohms: number;
  readonly lengthM: number;
}

/** What a source feeds with no protector between, one stretch a wire on its pole. */
function stretchesFrom(facts: Facts, pole: Pole, source: Element): readonly Stretch[] {
  const { circuit } = facts;
  const at = elementsAt(circuit);
  const closed = everClosed(facts);
  const byElement = new Map(circuit.wires.map((w) => [w.element, w]));
  const seen = new Set([pole.node]);
  return (at[pole.node] ?? [])
    .filter((i) => byElement.has(i))
    .map((first): Stretch => {
      const wires: WireFact[] = [];
      const nodes = new Set<number>();
      let lengthM = 0;
      let worst: Pick<Stretch, "worst" | "shortAmps" | "carriesAmps"> = {
        worst: undefined,
        shortAmps: 0,
        carriesAmps: Number.POSITIVE_INFINITY,
      };
      const step = (from: Reached, i: number): Reached | undefined => {
        const e = circuit.elements[i] as Element;
        const wire = byElement.get(i);
        if (
          e.protects ||
          e.series ||
          closed[i] === 0 ||
          (wire === undefined && e.class !== "gate" && e.class !== "conductor")
        )
          return undefined;
        if (e.oneWay && e.a !== from.node) return undefined;
        const node = e.a === from.node ? e.b : e.a;
        if (seen.has(node)) return undefined;
        seen.add(node);
        const to = { node, ohms: from.ohms + e.ohms, lengthM: from.lengthM + (wire?.lengthM ?? 0) };
        nodes.add(node);
        lengthM = Math.max(lengthM, to.lengthM);
        if (wire !== undefined) {
          const shortAmps = Math.min(source.emf / (source.ohms + to.ohms), source.mostAmps ?? Number.POSITIVE_INFINITY);
          const carriesAmps = wire.ratedAmps ?? ampacity(wire.areaMm2 ?? SIZE_UNKNOWN_MM2);
          if (shortAmps > carriesAmps) {
            wires.push(wire);
            if (shortAmps / carriesAmps > worst.shortAmps / worst.carriesAmps)
              worst = { worst: wire, shortAmps, carriesAmps };
          }
        }
        return to;
      };
      const begin = step({ node: pole.node, ohms: 0, lengthM: 0 }, first);
      const open = begin === undefined ? [] : [begin];
      for (let from = open.pop(); from !== undefined; from = open.pop())
        for (const i of at[from.node] ?? []) {
          const next = step(from, i);
          if (next !== undefined) open.push(next);
        }
      return { source: source.owner.id, wires, nodes, lengthM, ...worst };
    });
}

/** Gates that are closed in some reachable state; modules guard their own outputs and are not walked through. */
function everClosed({ circuit, runs }: Facts): Uint8Array {
  const [run] = runs;
  const closed = run?.machine.always.slice() ?? new Uint8Array(circuit.elements.length);
  for (const { logic, elements } of run?.machine.gatings ?? [])
    if (run && isEverClosed(run, logic)) for (const i of elements) closed[i] = 1;
  const modules = new Set(circuit.loads.filter((l) => l.family === "module").map((l) => l.part));
  circuit.elements.forEach((e, i) => {
    if (e.owner.kind === "part" && modules.has(e.owner.id)) closed[i] = 0;
  });
  return closed;
}

/** A gate that no search moves whole may be closed, for all that is known. */
function isEverClosed({ reachable }: RunFacts, logic: Logic): boolean {
  let isKnown = false;
  for (const { machine, first, end } of reachable.searches)
    for (let at = first; at < end; at++) {
      const is = logicIn(logic, (reachable.found[at] as Found).state, machine.view);
      if (is === YES) return true;
      isKnown ||= is === NO;
    }
  return !isKnown;
}

type Custom = "tail" | "cranking" | "owner" | "none";

function customOf(circuit: Circuit, { wires, nodes, lengthM }: Stretch): Custom {
  if (wires.every((w) => w.unfusedBecause !== undefined)) return "owner";
  if (lengthM <= SHORT_M || (lengthM <= SHEATHED_TAIL_M && wires.every((w) => w.isSleeved))) return "tail";
  const fed = circuit.loads.filter((l) => {
    const e = circuit.elements[l.element] as Element;
    return nodes.has(e.a) || nodes.has(e.b);
  });
  return fed.length > 0 && fed.every((l) => l.harm === "crank") ? "cranking" : "none";
}

const WHY: { readonly [C in Exclude<Custom, "tail" | "none">]: string } = {
  cranking: "Cranking cable is customarily left without a fuse; keep it short, sleeved and away from edges.",
  owner: "The owner gives a reason.",
};

function sightingOf(circuit: Circuit, stretch: Stretch, custom: Exclude<Custom, "tail">): Sighting {
  const ids = stretch.wires.map((w) => w.id);
  const terminals = [...stretch.nodes].map((n) => circuit.nodes[n] ?? "").filter((name) => !name.includes("/"));
  const shared = { ...bare(ids, stretch), path: terminals, subjects: [ids[0] ?? ""] };
  const which = list(ids.slice(0, 3));
  if (custom !== "none")
    return {
      ...shared,
      severity: "note",
      title: `${which} without a fuse, as is customary`,
      text: WHY[custom],
      remedy: "Nothing, if you agree.",
    };
  const { worst, shortAmps, carriesAmps, source } = stretch;
  const size =
    worst?.areaMm2 === undefined && worst?.ratedAmps === undefined ? ` at ${SIZE_UNKNOWN_MM2} mm² (no size given)` : "";
  const length = stretch.wires.some((w) => w.isLengthAssumed)
    ? " If the wire is shorter than that, give its length."
    : "";
  return {
    ...shared,
    severity: "danger",
    title: `${which} ${ids.length > 1 ? "have" : "has"} no fuse`,
    text: `Chafed through at its end, ${worst?.id} would carry ${amps(shortAmps)} from ${source}. It can carry ${amps(carriesAmps)}${size}.`,
    remedy: `Put a fuse within ${TAIL_M * 1000} mm of ${source}.${length}`,
  };
}

function tailsSighting(tails: readonly Stretch[]): Sighting {
  const ids = tails.flatMap((t) => t.wires.map((w) => w.id));
  return {
    ...bare(ids, tails[0] as Stretch),
    subjects: ["tails"],
    severity: "note",
    title: `Short tails without a fuse: ${list(ids.slice(0, 4))}`,
    text: "Up to 178 mm, or 1016 mm in a sleeve, is customary (33 CFR 183.455).",
    remedy: "Keep them short and sleeved.",
  };
}

/** What the sightings of this rule share: they hold in every state. */
const bare = (ids: readonly string[], stretch: Stretch) => ({
  run: undefined,
  at: undefined,
  ends: undefined,
  where: [...ids, stretch.source],
  path: [],
  numbers: [{ name: "current at a dead short", value: stretch.shortAmps, unit: "A", limit: stretch.carriesAmps }],
  harm: true,
});
