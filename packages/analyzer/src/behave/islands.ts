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
interface Flow {
  /** Which of the undecided conduct, one bit each, and which corner of the trunk it feels. */
  readonly way: number;
  readonly corner: number;
  readonly volts: readonly number[];
  readonly amps: readonly number[];
}

export interface Flows {
  /** Every way it may be; none if there are too many to try. */
  readonly flows: readonly Flow[];
  /** Elements of the island that may or may not conduct. */
  readonly undecided: readonly number[];
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

/** Islands solved so far, by what they are made of and feel. */
export type SolvedIslands = Map<string, readonly Flow[]>;

export function flowsOf(machine: Machine, solved: SolvedIslands, trunk: Trunk, probe: Probe): Flows {
  if (trunk.shorted !== undefined) return { flows: [], undecided: trunk.shorted };
  const { network, circuit } = machine;
  const { elements, nodes } = probe;
  const endsOf = (i: number) => [(circuit.elements[i] as Element).a, (circuit.elements[i] as Element).b];
  const own = islandsAt(network, trunk, elements, [...nodes, ...elements.flatMap(endsOf)]);
  const undecided = own.filter((i) => trunk.closed[i] === MAYBE);
  if (undecided.length > MOST_UNDECIDED) return { flows: [], undecided };
  const rim = [...new Set([...nodes, ...own.flatMap(endsOf)])].filter((n) => trunk.isTrunk[n] === 1);
  const key = `${own.join()}|${undecided.join()}|${elements.join()}|${nodes.join()}|${rim.map((n) => `${trunk.light[n]}:${trunk.heavy[n]}`).join()}`;
  let flows = solved.get(key);
  if (flows === undefined) {
    flows = solveIsland(machine, trunk, { own, undecided, rim }, probe);
    solved.set(key, flows);
  }
  return { flows, undecided };
}

/**
 * Undecided elements that alone turn a decision: two ways differ in nothing else, and the decision differs. All of them
 * if none does so alone but the ways differ; none if only the trunk's corners do.
 */
export function turning<T>({ flows, undecided }: Flows, decisions: readonly T[]): readonly number[] {
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

interface IslandShape {
  readonly own: readonly number[];
  readonly undecided: readonly number[];
  readonly rim: readonly number[];
}

function solveIsland(
  machine: Machine,
  trunk: Trunk,
  { own, undecided, rim }: IslandShape,
  probe: Probe,
): readonly Flow[] {
  const part = partOf(machine.network, own, trunk.isTrunk);
  const index = new Map(own.map((i, l) => [i, l]));
  const corners = cornersOf(trunk, rim);
  return waysOf(undecided.length).flatMap(({ way, isFlip }) => {
    const closed = new Uint8Array(own.length).fill(1);
    undecided.forEach((i, bit) => {
      if (((way >> bit) & 1) === 0) closed[index.get(i) as number] = 0;
    });
    // Single flips of many are only looked at with the whole trunk light and the whole trunk heavy.
    return (isFlip ? corners.slice(0, 2) : corners).map((volts, corner): Flow => {
      machine.solves++;
      return { way, corner, ...probed(machine, part, index, closed, volts, probe) };
    });
  });
}

interface Way {
  readonly way: number;
  readonly isFlip: boolean;
}

function waysOf(count: number): readonly Way[] {
  if (count <= MOST_MIXED_WAYS) return Array.from({ length: 1 << count }, (_, way) => ({ way, isFlip: false }));
  const all = (1 << count) - 1;
  const flips = Array.from({ length: count }, (_, bit) => [1 << bit, all ^ (1 << bit)]).flat();
  return [0, all].map((way): Way => ({ way, isFlip: false })).concat(flips.map((way) => ({ way, isFlip: true })));
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
