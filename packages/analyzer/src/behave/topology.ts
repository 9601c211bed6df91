import type { Circuit } from "../circuit/circuit.ts";
import type { Bay } from "./bay.ts";
import { type Grid, gridOf } from "./grid.ts";
import type { Asked } from "./loads.ts";
import { poleWays } from "./pole-ways.ts";
import { MAYBE, NO, YES } from "./scope.ts";

/**
 * A circuit cut at its trunk: the nodes that conductors and closed gates join to the poles of the batteries. What hangs
 * between trunk nodes falls into islands. All this hangs on what conducts alone, so every run shares it.
 */
export interface Topology {
  /** Three-valued, one byte an element. */
  readonly closed: Uint8Array;
  /** One byte a node. */
  readonly isTrunk: Uint8Array;
  /** The trunk as it was walked: nodes in order, and the element by which each was reached; -1 for the reference. */
  readonly order: Int32Array;
  readonly came: Int32Array;
  /** What hangs between the trunk's nodes, and by element which of these it is in; -1 for the trunk itself. */
  readonly islands: readonly Island[];
  readonly islandOf: Int32Array;
  /** Feed meets ground, or may: nothing is bounded then. The elements that leave it open, or the rest of the loom. */
  readonly shorted: readonly number[] | undefined;
  /** What each probe touches, by its number, once asked. */
  readonly bays: (Bay | undefined)[];
  /** Designed feed and return with what is undecided open, and closed; once asked. */
  reached: readonly [Asked, Asked] | undefined;
  /** Loads whose being asked for is known, or what it hangs on. */
  readonly asked: Map<number, boolean | readonly number[]>;
}

/** What is closed or may be, without the trunk. An element between two trunk nodes is an island of one. */
export interface Island {
  /** Ascending. */
  readonly elements: readonly number[];
  /** Trunk nodes that it hangs on. */
  readonly rim: readonly number[];
  readonly isOpen: boolean;
}

const cache = new WeakMap<Circuit, Map<string, Topology>>();

/** @param key names what conducts */
export function topologyOf(circuit: Circuit, key: string, closed: Uint8Array): Topology {
  let known = cache.get(circuit);
  if (known === undefined) {
    known = new Map();
    cache.set(circuit, known);
  }
  let topology = known.get(key);
  if (topology === undefined) {
    topology = makeTopology(circuit, closed);
    known.set(key, topology);
  }
  return topology;
}

function makeTopology(circuit: Circuit, closed: Uint8Array): Topology {
  const grid = gridOf(circuit);
  const isTrunk = new Uint8Array(grid.nodes);
  const came = new Int32Array(grid.nodes).fill(-1);
  const order = orderOf(grid, closed, isTrunk, came);
  const { islands, islandOf } = islandsOf(grid, closed, isTrunk);
  return {
    closed,
    isTrunk,
    order,
    came,
    islands,
    islandOf,
    shorted: shortedBy(circuit, closed),
    bays: [],
    reached: undefined,
    asked: new Map(),
  };
}

/** Walks the trunk, filling in its nodes and how each was reached. */
function orderOf(
  { reference, a, b, offsets, incident, isJoint, poles }: Grid,
  closed: Uint8Array,
  isTrunk: Uint8Array,
  came: Int32Array,
): Int32Array {
  const order: number[] = [];
  const open: number[] = [];
  const spread = (start: number) => {
    open.push(start);
    for (let n = open.pop(); n !== undefined; n = open.pop()) {
      if (isTrunk[n] === 1) continue;
      isTrunk[n] = 1;
      order.push(n);
      for (let k = offsets[n] as number; k < (offsets[n + 1] as number); k++) {
        const i = incident[k] as number;
        if (closed[i] !== YES || isJoint[i] === 0) continue;
        const far = (a[i] === n ? b[i] : a[i]) as number;
        if (isTrunk[far] === 1) continue;
        came[far] = i;
        open.push(far);
      }
    }
  };
  spread(reference);
  // Batteries stand on what they are grounded to; one that stands on another follows it.
  for (let more = true; more; ) {
    more = false;
    for (const i of poles) {
      const [up, down] = [a[i] as number, b[i] as number];
      if (closed[i] !== YES || isTrunk[up] === isTrunk[down]) continue;
      const far = isTrunk[down] === 1 ? up : down;
      came[far] = i;
      spread(far);
      more = true;
    }
  }
  return Int32Array.from(order);
}

function islandsOf(grid: Grid, closed: Uint8Array, isTrunk: Uint8Array) {
  const { a, b, offsets, incident, isJoint, isPole } = grid;
  const islandOf = new Int32Array(grid.elements).fill(-1);
  const rims: number[][] = [];
  const open: number[] = [];
  const take = (i: number, rim: number[]) => {
    islandOf[i] = rims.length;
    for (let end = 0; end < 2; end++) {
      const n = (end === 0 ? a : b)[i] as number;
      if (isTrunk[n] === 0) open.push(n);
      else if (!rim.includes(n)) rim.push(n);
    }
  };
  const been = new Uint8Array(grid.nodes);
  for (let first = 0; first < grid.elements; first++) {
    if (islandOf[first] !== -1 || closed[first] === NO || isPole[first] === 1) continue;
    const isBetween = isTrunk[a[first] as number] === 1 && isTrunk[b[first] as number] === 1;
    if (isBetween && closed[first] === YES && isJoint[first] === 1) continue;
    const rim: number[] = [];
    take(first, rim);
    for (let n = open.pop(); n !== undefined; n = open.pop()) {
      if (been[n] === 1) continue;
      been[n] = 1;
      for (let at = offsets[n] as number; at < (offsets[n + 1] as number); at++) {
        const i = incident[at] as number;
        if (islandOf[i] === -1 && closed[i] !== NO) take(i, rim);
      }
    }
    rims.push(rim);
  }
  return { islands: listed(rims, islandOf, closed), islandOf };
}

/** Islands with their elements, ascending. */
function listed(
  rims: readonly (readonly number[])[],
  islandOf: Int32Array,
  closed: Uint8Array,
): readonly Island[] {
  const elements: number[][] = rims.map(() => []);
  for (let i = 0; i < islandOf.length; i++) {
    const k = islandOf[i] as number;
    if (k >= 0) elements[k]?.push(i);
  }
  return rims.map((rim, k) => {
    const own = elements[k] as readonly number[];
    return { elements: own, rim, isOpen: own.some((i) => closed[i] === MAYBE) };
  });
}

function shortedBy(circuit: Circuit, closed: Uint8Array): readonly number[] | undefined {
  const maybe = new Set<number>();
  for (const { gates, kind } of poleWays(circuit)) {
    if (kind === "meeting" || gates.some((g) => closed[g] === NO)) continue;
    const open = gates.filter((g) => closed[g] === MAYBE);
    // Fault current goes where it likes: all that may conduct has a say.
    if (open.length === 0) return [...closed.keys()].filter((i) => closed[i] === MAYBE);
    for (const g of open) maybe.add(g);
  }
  return maybe.size === 0 ? undefined : [...maybe];
}
