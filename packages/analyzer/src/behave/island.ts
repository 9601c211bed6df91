import type { Element } from "../circuit/circuit.ts";
import type { Network } from "../solve/network.ts";
import { type NetworkPart, operatePart, type PartPoint, partOf } from "../solve/part.ts";
import type { Machine } from "./machine.ts";
import { MAYBE } from "./scope.ts";
import type { Island, Trunk } from "./trunk.ts";

// One island solved by itself, in each way that it may be.

/** Rim nodes whose corners are tried in every mixture; past it each one alone against the others. */
const MOST_MIXED_RIM = 3;

/** What is asked of an island: amps through elements, volts over them or of nodes. */
export interface Probe {
  readonly elements: readonly number[];
  readonly nodes: readonly number[];
}

/** What of the island is read at an operating point: volts of the nodes, then over the elements; amps through these. */
export interface Reading {
  readonly volts: readonly number[];
  readonly amps: readonly number[];
}

/** Islands solved so far, by what they are made of and feel, and the networks of their elements. */
export interface SolvedIslands {
  readonly islands: Map<string, SolvedIsland>;
  readonly parts: Map<string, NetworkPart>;
}

export const noIslands = (): SolvedIslands => ({ islands: new Map(), parts: new Map() });

/** One island under the same trunk volts, with the operating points found so far. */
export interface SolvedIsland {
  readonly part: NetworkPart;
  /** Place in the part by element and by node. */
  readonly elementAt: ReadonlyMap<number, number>;
  readonly nodeAt: ReadonlyMap<number, number>;
  readonly undecided: readonly number[];
  readonly corners: Corners;
  /** Volts by which two nodes can come closer or apart between the corners: no inner node moves more than the rim. */
  readonly spread: number;
  readonly points: Map<number, PartPoint>;
}

/** A short key: none of these numbers reaches 65 536. */
const packedNumbers = (list: readonly number[]): string => String.fromCharCode(...list);

export function islandIn(
  network: Network,
  solved: SolvedIslands,
  trunk: Trunk,
  numbers: readonly number[],
  fixed: readonly number[],
): SolvedIsland {
  const islands = numbers.map((k) => trunk.islands[k] as Island);
  const own = islands.flatMap((x) => x.elements);
  const undecided = own.filter((i) => trunk.closed[i] === MAYBE);
  const rim = [...new Set([...fixed, ...islands.flatMap((x) => x.rim)])];
  const made = `${packedNumbers(own)}|${packedNumbers(rim)}`;
  const key = `${made}|${packedNumbers(undecided)}|${rim.map((n) => `${trunk.light[n]}:${trunk.heavy[n]}`).join()}`;
  let island = solved.islands.get(key);
  if (island === undefined) {
    let part = solved.parts.get(made);
    if (part === undefined) {
      part = partOf(network, own, trunk.isTrunk);
      solved.parts.set(made, part);
    }
    const moves = rim.map((n) => (trunk.heavy[n] as number) - (trunk.light[n] as number));
    island = {
      part,
      elementAt: new Map(part.elements.map((i, l) => [i, l])),
      nodeAt: new Map(part.nodes.map((n, l) => [n, l])),
      undecided,
      corners: cornersOf(trunk, rim),
      spread: Math.max(0, ...moves) - Math.min(0, ...moves),
      points: new Map(),
    };
    solved.islands.set(key, island);
  }
  return island;
}

export function pointAt(machine: Machine, island: SolvedIsland, way: number, corner: number): PartPoint {
  const { part, undecided, corners, points, elementAt } = island;
  const key = way * corners.count + corner;
  let point = points.get(key);
  if (point === undefined) {
    const closed = new Uint8Array(part.elements.length).fill(1);
    undecided.forEach((i, bit) => {
      if (((way >> bit) & 1) === 0) closed[elementAt.get(i) as number] = 0;
    });
    machine.solves++;
    point = operatePart(part, closed, corners.at(corner));
    points.set(key, point);
  }
  return point;
}

/** Volts of the trunk as an island may feel them: some of its rim sags, the rest does not. The first is light. */
interface Corners {
  readonly count: number;
  readonly at: (corner: number) => Float64Array;
}

function cornersOf({ light, heavy }: Trunk, rim: readonly number[]): Corners {
  const moving = rim.filter((n) => light[n] !== heavy[n]);
  const sagging = (which: (k: number) => boolean) => {
    const volts = light.slice();
    moving.forEach((n, k) => {
      if (which(k)) volts[n] = heavy[n] as number;
    });
    return volts;
  };
  const isMixed = moving.length <= MOST_MIXED_RIM;
  const count = isMixed ? 1 << moving.length : 2 + 2 * moving.length;
  return {
    count,
    at: (corner) => {
      if (corner === 0) return light;
      if (isMixed) return sagging((k) => ((corner >> k) & 1) === 1);
      if (corner === 1) return heavy;
      // One alone sags, or all but one.
      const one = (corner - 2) >> 1;
      return sagging(corner % 2 === 0 ? (k) => k === one : (k) => k !== one);
    },
  };
}

export function probed(
  machine: Machine,
  { nodeAt, elementAt }: SolvedIsland,
  point: PartPoint,
  given: Float64Array,
  { elements, nodes }: Probe,
): Reading {
  const voltsAt = (n: number) => {
    const l = nodeAt.get(n);
    return l === undefined ? (given[n] as number) : (point.volts[l] as number);
  };
  const across = (i: number) => {
    const e = machine.circuit.elements[i] as Element;
    return voltsAt(e.a) - voltsAt(e.b);
  };
  return {
    volts: [...nodes.map(voltsAt), ...elements.map(across)],
    amps: elements.map((i) => {
      const l = elementAt.get(i);
      return l === undefined ? 0 : (point.amps[l] as number);
    }),
  };
}
