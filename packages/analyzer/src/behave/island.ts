import type { Element } from "../circuit/circuit.ts";
import { ampsAt, type Network, type Solvable } from "../solve/network.ts";
import { operatePart, type PartPoint, type PartShape, partOf } from "../solve/part.ts";
import type { Bay, Probe } from "./bay.ts";
import type { On } from "./grade.ts";
import type { Agreed } from "./islands.ts";
import type { Machine } from "./machine.ts";
import { conducts } from "./mixture.ts";
import type { Trunk } from "./trunk.ts";

// One island solved by itself, in each way that it may be.

/** Rim nodes whose corners are tried in every mixture; past it each one alone against the others. */
const MOST_MIXED_RIM = 3;

/**
 * What of the island is read at an operating point: volts of the nodes, then over the elements; amps through these.
 * Typed, like all lists here that may or may not hold whole numbers alone: to the engine these would be two shapes.
 */
export interface Reading {
  readonly volts: Float64Array;
  readonly amps: Float64Array;
}

/** Islands solved so far under the same values, and the networks of their elements. */
interface SolvedIslands {
  /** By bay, and by the volts at its rim. */
  readonly islands: Map<string, SolvedIsland>;
  readonly parts: Map<PartShape, Part>;
  /** Volts of the trunk so far, each with a number: there are few, and a number is a short key. */
  readonly volts: Map<number, number>;
}

interface Part {
  readonly solvable: Solvable;
  /** Something in it gives amps by itself. */
  readonly isSource: boolean;
  /** What is asked of a solve, written on and not kept: what conducts, and volts at the rim. */
  readonly closed: Uint8Array;
  readonly given: Float64Array;
}

const solvedWith = new WeakMap<Network["values"], SolvedIslands>();

function islandsOf({ values }: Network): SolvedIslands {
  let solved = solvedWith.get(values);
  if (solved === undefined) {
    solved = { islands: new Map(), parts: new Map(), volts: new Map() };
    solvedWith.set(values, solved);
  }
  return solved;
}

/** A bay under the same trunk volts, with what was found out so far. */
export interface SolvedIsland {
  readonly bay: Bay;
  readonly part: Part;
  readonly corners: Corners;
  /** Volts by which two nodes can come closer or apart between the corners: no inner node moves more than the rim. */
  readonly spread: number;
  /** The most volts between any two rim nodes, whatever the trunk does; without bound if the island has a source. */
  readonly drop: number;
  readonly points: Map<number, PartPoint>;
  /** What was agreed on, by what was asked: it hangs on nothing else. */
  readonly wants: Map<number, Agreed<"stay" | "change" | "split">>;
  readonly grades: Map<number, Agreed<On>>;
}

export function islandIn(network: Network, { light, heavy }: Trunk, bay: Bay): SolvedIsland {
  const solved = islandsOf(network);
  let key = packed(bay.id);
  for (const n of bay.rim)
    key += packed(numberOf(solved, light[n] as number)) + packed(numberOf(solved, heavy[n] as number));
  let island = solved.islands.get(key);
  if (island === undefined) {
    const [low, high] = [atRim(bay, light), atRim(bay, heavy)];
    const part = partIn(network, solved, bay.shape);
    island = {
      bay,
      part,
      corners: cornersOf(low, high),
      spread: spreadOf(low, high),
      drop: part.isSource ? Number.POSITIVE_INFINITY : dropOf(low, high),
      points: new Map(),
      wants: new Map(),
      grades: new Map(),
    };
    solved.islands.set(key, island);
  }
  return island;
}

function atRim({ rim }: Bay, volts: Float64Array): Float64Array {
  const own = new Float64Array(rim.length);
  for (let k = 0; k < own.length; k++) own[k] = volts[rim[k] as number] as number;
  return own;
}

function spreadOf(low: Float64Array, high: Float64Array): number {
  let [down, up] = [0, 0];
  for (let k = 0; k < low.length; k++) {
    const moved = (high[k] as number) - (low[k] as number);
    down = Math.min(down, moved);
    up = Math.max(up, moved);
  }
  return up - down;
}

function dropOf(low: Float64Array, high: Float64Array): number {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let k = 0; k < low.length; k++) {
    least = Math.min(least, low[k] as number, high[k] as number);
    most = Math.max(most, low[k] as number, high[k] as number);
  }
  return Math.max(0, most - least);
}

/** Two characters: so many bays may come together. */
const packed = (n: number): string => String.fromCharCode(n >> 16, n & 0xffff);

function numberOf({ volts }: SolvedIslands, value: number): number {
  let n = volts.get(value);
  if (n === undefined) {
    n = volts.size;
    volts.set(value, n);
  }
  return n;
}

function partIn(network: Network, { parts }: SolvedIslands, shape: PartShape): Part {
  let part = parts.get(shape);
  if (part === undefined) {
    part = {
      solvable: partOf(network, shape),
      isSource: shape.elements.some((i) => ampsAt(network.values, i, 0) !== 0),
      closed: new Uint8Array(shape.elements.length),
      given: new Float64Array(shape.nodes.length),
    };
    parts.set(shape, part);
  }
  return part;
}

export function pointAt(machine: Machine, island: SolvedIsland, way: number, corner: number): PartPoint {
  const { bay, part, corners, points } = island;
  const key = way * corners.count + corner;
  let point = points.get(key);
  if (point === undefined) {
    const { solvable, closed, given } = part;
    closed.fill(1);
    bay.undecidedPlaces.forEach((l, bit) => {
      if (!conducts(bay.undecided.length, way, bit)) closed[l] = 0;
    });
    given.fill(0);
    const rim = corners.at(corner);
    bay.rimPlaces.forEach((l, k) => {
      if (l >= 0) given[l] = rim[k] as number;
    });
    machine.solves++;
    point = operatePart(solvable, closed, given);
    points.set(key, point);
  }
  return point;
}

/** Volts at the rim as an island may feel them: some of it sags, the rest does not. The first is light. */
interface Corners {
  readonly count: number;
  readonly at: (corner: number) => Float64Array;
}

function cornersOf(light: Float64Array, heavy: Float64Array): Corners {
  const moving = [...light.keys()].filter((k) => light[k] !== heavy[k]);
  const sagging = (which: (m: number) => boolean) => {
    const volts = light.slice();
    moving.forEach((k, m) => {
      if (which(m)) volts[k] = heavy[k] as number;
    });
    return volts;
  };
  const isMixed = moving.length <= MOST_MIXED_RIM;
  const count = isMixed ? 1 << moving.length : 2 + 2 * moving.length;
  return {
    count,
    at: (corner) => {
      if (corner === 0) return light;
      if (isMixed) return sagging((m) => ((corner >> m) & 1) === 1);
      if (corner === 1) return heavy;
      // One alone sags, or all but one.
      const one = (corner - 2) >> 1;
      return sagging(corner % 2 === 0 ? (m) => m === one : (m) => m !== one);
    },
  };
}

export function probed(
  { circuit }: Machine,
  { bay, corners }: SolvedIsland,
  point: PartPoint,
  corner: number,
  { elements, nodes }: Probe,
): Reading {
  const { nodeAt, elementAt } = bay.shape;
  const rim = corners.at(corner);
  const voltsAt = (n: number): number => {
    const l = nodeAt.get(n);
    // A node that nothing joins to anything stands at nothing.
    return l === undefined ? (rim[bay.rim.indexOf(n)] ?? 0) : (point.volts[l] as number);
  };
  const volts = new Float64Array(nodes.length + elements.length);
  const amps = new Float64Array(elements.length);
  for (let k = 0; k < nodes.length; k++) volts[k] = voltsAt(nodes[k] as number);
  for (let k = 0; k < elements.length; k++) {
    const i = elements[k] as number;
    const e = circuit.elements[i] as Element;
    volts[nodes.length + k] = voltsAt(e.a) - voltsAt(e.b);
    const l = elementAt.get(i);
    if (l !== undefined) amps[k] = point.amps[l] as number;
  }
  return { volts, amps };
}
