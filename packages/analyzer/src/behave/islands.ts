import type { Element } from "../circuit/circuit.ts";
import type { Network } from "../solve/network.ts";
import { type NetworkPart, operatePart, partOf } from "../solve/part.ts";
import { elementsAt } from "./feed.ts";
import type { Machine } from "./machine.ts";
import { MAYBE } from "./scope.ts";
import type { Trunk } from "./trunk.ts";

// What hangs on the trunk, solved island by island: with the trunk's volts at their corners, and with what may or may
// not conduct both ways.

/** Volts of some nodes and amps through some elements, in one way that an island may be. */
export interface Flow {
  /** Which of the undecided conduct, one bit each, and which corner of the trunk it feels. */
  readonly way: number;
  readonly corner: number;
  readonly volts: readonly number[];
  readonly amps: readonly number[];
}

/** All open and all closed, at both ends of the trunk; then each element alone the other way; then every mixture. */
export type Stage = "ends" | "flips" | "mixed";

/** Every way that an island may be, as far as it is asked for. */
export interface Flows {
  /** Elements of the island that may or may not conduct. */
  readonly undecided: readonly number[];
  /** None if there are too many ways to try. */
  readonly of: (stage: Stage) => readonly Flow[];
}

/** What is asked of an island: amps through elements, volts over them or of nodes. */
export interface Probe {
  readonly elements: readonly number[];
  readonly nodes: readonly number[];
}

/** Up to this many undecided elements are tried in every mixture. */
const MOST_MIXED_WAYS = 4;
/** Beyond, each alone against all others open and all others closed; past this many they are needed as they are. */
const MOST_UNDECIDED = 24;
/** Rim nodes whose corners are tried in every mixture; past it each one alone against the others. */
const MOST_MIXED_RIM = 3;

/** Islands solved so far, by what they are made of and feel, and the networks of their elements. */
export interface SolvedIslands {
  readonly flows: Map<string, Flows>;
  readonly parts: Map<string, NetworkPart>;
}

export const noIslands = (): SolvedIslands => ({ flows: new Map(), parts: new Map() });

const unsolved = (undecided: readonly number[]): Flows => ({ undecided, of: () => [] });

export function flowsOf(machine: Machine, solved: SolvedIslands, trunk: Trunk, probe: Probe): Flows {
  if (trunk.shorted !== undefined) return unsolved(trunk.shorted);
  const { network, circuit } = machine;
  const { elements, nodes } = probe;
  const endsOf = (i: number) => [(circuit.elements[i] as Element).a, (circuit.elements[i] as Element).b];
  const own = islandsAt(network, trunk, elements, [...nodes, ...elements.flatMap(endsOf)]);
  const undecided = own.filter((i) => trunk.closed[i] === MAYBE);
  if (undecided.length > MOST_UNDECIDED) return unsolved(undecided);
  const rim = [...new Set([...nodes, ...own.flatMap(endsOf)])].filter((n) => trunk.isTrunk[n] === 1);
  const made = `${own.join()}|${rim.join()}`;
  const key = `${made}|${undecided.join()}|${elements.join()}|${nodes.join()}|${rim.map((n) => `${trunk.light[n]}:${trunk.heavy[n]}`).join()}`;
  let flows = solved.flows.get(key);
  if (flows === undefined) {
    let part = solved.parts.get(made);
    if (part === undefined) {
      part = partOf(network, own, trunk.isTrunk);
      solved.parts.set(made, part);
    }
    flows = stagedFlows(machine, part, undecided, cornersOf(trunk, rim), probe);
    solved.flows.set(key, flows);
  }
  return flows;
}

/** What all ways agree on, or the elements that turn it: none if only the trunk does. */
export type Agreed<T> = { readonly is: T } | { readonly turned: readonly number[] };

/** @param decisions one for each flow of a stage */
export function agreedOn<T>(flows: Flows, decisions: (stage: Stage) => readonly T[]): Agreed<T> {
  const ends = decisions("ends");
  const [first] = ends;
  if (first === undefined) return { turned: flows.undecided };
  const isFirst = (x: T) => x === first;
  if (ends.every(isFirst)) {
    for (const stage of ["mixed", "flips"] as const) {
      const all = decisions(stage);
      if (!all.every(isFirst)) return { turned: turning(flows, stage, all) };
    }
    return { is: first };
  }
  return { turned: turning(flows, "flips", decisions("flips")) };
}

/**
 * Undecided elements that alone turn a decision: two ways differ in nothing else, and the decision differs. All of them
 * if none does so alone but the ways differ; none if only the trunk's corners do.
 */
function turning<T>({ of, undecided }: Flows, stage: Stage, decisions: readonly T[]): readonly number[] {
  const flows = of(stage);
  const by = new Map(flows.map((f, k) => [`${f.way}:${f.corner}`, decisions[k]]));
  const differ = (mask: number) =>
    flows.some((f, k) => {
      const other = `${f.way ^ mask}:${f.corner}`;
      return by.has(other) && by.get(other) !== decisions[k];
    });
  const alone = undecided.filter((_, bit) => differ(1 << bit));
  if (alone.length > 0) return alone;
  return flows.some((f, k) => flows.some((g, l) => g.corner === f.corner && decisions[k] !== decisions[l]))
    ? undecided
    : [];
}

/** Everything in the islands of these elements and nodes, of what conducts or may. */
function islandsAt(
  network: Network,
  trunk: Trunk,
  elements: readonly number[],
  nodes: readonly number[],
): readonly number[] {
  const at = elementsAt(network.circuit);
  const around = nodes.filter((n) => trunk.isTrunk[n] === 0).flatMap((n) => at[n] ?? []);
  const islands = new Set([...elements, ...around].map((i) => trunk.islandOf[i] as number));
  islands.delete(-1);
  return [...islands].flatMap((k) => trunk.islands[k]?.elements ?? []).sort((x, y) => x - y);
}

function stagedFlows(
  machine: Machine,
  part: NetworkPart,
  undecided: readonly number[],
  corners: readonly Float64Array[],
  probe: Probe,
): Flows {
  const index = new Map(part.elements.map((i, l) => [i, l]));
  const solved = new Map<number, Flow>();
  const solve = (way: number, corner: number): Flow => {
    const key = way * corners.length + corner;
    let flow = solved.get(key);
    if (flow === undefined) {
      const closed = new Uint8Array(part.elements.length).fill(1);
      undecided.forEach((i, bit) => {
        if (((way >> bit) & 1) === 0) closed[index.get(i) as number] = 0;
      });
      machine.solves++;
      flow = { way, corner, ...probed(machine, part, index, closed, corners[corner] as Float64Array, probe) };
      solved.set(key, flow);
    }
    return flow;
  };
  const ends = [...corners.keys()].slice(0, 2);
  const stages = new Map<Stage, readonly Flow[]>();
  return {
    undecided,
    of: (stage) => {
      let flows = stages.get(stage);
      if (flows === undefined) {
        const at = stage === "mixed" ? [...corners.keys()] : ends;
        flows = waysOf(undecided.length, stage).flatMap((way) => at.map((corner) => solve(way, corner)));
        stages.set(stage, flows);
      }
      return flows;
    },
  };
}

/** Single flips of many are only looked at with the whole trunk light and the whole trunk heavy. */
function waysOf(count: number, stage: Stage): readonly number[] {
  const all = (1 << count) - 1;
  if (stage === "mixed" && count <= MOST_MIXED_WAYS) return Array.from({ length: 1 << count }, (_, way) => way);
  const flips = Array.from({ length: count }, (_, bit) => [1 << bit, all ^ (1 << bit)]).flat();
  return [...new Set(stage === "flips" ? [0, all, ...flips] : [0, all])];
}

/** Volts of the trunk as an island may feel them, light and heavy first: some of its rim sags, the rest does not. */
function cornersOf(trunk: Trunk, rim: readonly number[]): readonly Float64Array[] {
  const moving = rim.filter((n) => trunk.light[n] !== trunk.heavy[n]);
  if (moving.length === 0) return [trunk.light];
  const sagging = (which: (k: number) => boolean) => {
    const volts = trunk.light.slice();
    moving.forEach((n, k) => {
      if (which(k)) volts[n] = trunk.heavy[n] as number;
    });
    return volts;
  };
  if (moving.length > MOST_MIXED_RIM) {
    const alone = moving.flatMap((_, k) => [sagging((j) => j === k), sagging((j) => j !== k)]);
    return [trunk.light, trunk.heavy, ...alone];
  }
  const all = (1 << moving.length) - 1;
  const mixed = Array.from({ length: Math.max(0, all - 1) }, (_, m) => sagging((k) => (((m + 1) >> k) & 1) === 1));
  return [trunk.light, trunk.heavy, ...mixed];
}

function probed(
  machine: Machine,
  part: NetworkPart,
  index: ReadonlyMap<number, number>,
  closed: Uint8Array,
  given: Float64Array,
  { elements, nodes }: Probe,
): Pick<Flow, "volts" | "amps"> {
  const point = operatePart(part, closed, given);
  const voltsAt = (n: number) => {
    const l = part.nodes.indexOf(n);
    return l < 0 ? (given[n] as number) : (point.volts[l] as number);
  };
  const across = (i: number) => {
    const e = machine.circuit.elements[i] as Element;
    return voltsAt(e.a) - voltsAt(e.b);
  };
  return {
    volts: [...nodes.map(voltsAt), ...elements.map(across)],
    amps: elements.map((i) => (index.has(i) ? (point.amps[index.get(i) as number] as number) : 0)),
  };
}
