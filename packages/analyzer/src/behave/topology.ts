import type { Circuit } from "../circuit/circuit.ts";
import type { Bay } from "./bay.ts";
import { type Grid, gridOf } from "./grid.ts";
import { textOf } from "./key-text.ts";
import type { Asked } from "./loads.ts";
import { poleWays } from "./pole-ways.ts";
import { scattered } from "./scatter.ts";
import { MAYBE, NO, YES } from "./scope.ts";

/**
 * A circuit cut at its trunk: the nodes that conductors and closed gates join to the poles of the batteries. What hangs
 * between trunk nodes falls into islands. All this hangs on what conducts alone, so every run shares it.
 */
export interface Topology {
  /** Three-valued, one byte an element. */
  readonly closed: Uint8Array;
  readonly tree: Tree;
  /** That of the tree. */
  readonly isTrunk: Uint8Array;
  /** What hangs between the trunk's nodes, and by element which of these it is in; -1 for the trunk itself. */
  readonly islands: Islands;
  readonly islandOf: Int32Array;
  /** Feed meets ground, or may: nothing is bounded then. The elements that leave it open, or the rest of the loom. */
  readonly shorted: readonly number[] | undefined;
  /** What each probe touches, by its number, once asked. */
  readonly bays: (Bay | undefined)[];
  /** Designed feed and return with what is undecided open; once asked. */
  certain: Asked | undefined;
  /** Loads whose being asked for is known, or what it hangs on. */
  readonly asked: Map<number, boolean | readonly number[]>;
}

/** A trunk as it was walked. Whatever else conducts, what joins it is often the same, so it is shared. */
export interface Tree {
  /** One byte a node. */
  readonly isTrunk: Uint8Array;
  /** Nodes in order, and the element by which each was reached; -1 for the reference. */
  readonly order: Int32Array;
  readonly came: Int32Array;
}

/**
 * What is closed or may be, without the trunk. An element between two trunk nodes is an island of one. Thousands of
 * these are kept: flat lists, in which the k-th island begins at `first[k]` and ends before `first[k + 1]`.
 */
export interface Islands {
  readonly count: number;
  /** Of each island, ascending. */
  readonly elements: Int32Array;
  readonly firstElement: Int32Array;
  /** Trunk nodes that each hangs on. */
  readonly rim: Int32Array;
  readonly firstRim: Int32Array;
  /** One byte an island: 1 where something may or may not conduct. */
  readonly isOpen: Uint8Array;
  /** The same for islands of the same elements, each conducting as surely, on the same trunk nodes; seldom for others. */
  readonly sum: Int32Array;
}

const cache = new WeakMap<Circuit, Map<string, Topology>>();
/** A few kilobytes each. Past so many they are made again when they are asked for again. */
const MOST_KEPT = 4_000;

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
    if (known.size >= MOST_KEPT) known.clear();
    known.set(key, topology);
  }
  return topology;
}

function makeTopology(circuit: Circuit, closed: Uint8Array): Topology {
  const grid = gridOf(circuit);
  const tree = treeOf(circuit, grid, closed);
  const { isTrunk } = tree;
  const { islands, islandOf } = islandsOf(grid, closed, isTrunk);
  return {
    closed,
    tree,
    isTrunk,
    islands,
    islandOf,
    shorted: shortedBy(circuit, closed),
    bays: [],
    certain: undefined,
    asked: new Map(),
  };
}

const trees = new WeakMap<Circuit, Map<string, Tree>>();

function treeOf(circuit: Circuit, grid: Grid, closed: Uint8Array): Tree {
  let known = trees.get(circuit);
  if (known === undefined) {
    known = new Map();
    trees.set(circuit, known);
  }
  const key = joinedKey(grid, closed);
  let tree = known.get(key);
  if (tree === undefined) {
    tree = walked(grid, closed);
    known.set(key, tree);
  }
  return tree;
}

/** Which of the joints and poles conduct, one bit each. */
function joinedKey({ elements, isJoint, isPole }: Grid, closed: Uint8Array): string {
  const codes: number[] = [];
  let word = 1;
  for (let i = 0; i < elements; i++) {
    if (isJoint[i] === 0 && isPole[i] === 0) continue;
    word = (word << 1) | (closed[i] === YES ? 1 : 0);
    if (word > 0x7fff) {
      codes.push(word);
      word = 1;
    }
  }
  codes.push(word);
  return textOf(codes);
}

function walked({ nodes, reference, a, b, offsets, incident, isJoint, poles }: Grid, closed: Uint8Array): Tree {
  const isTrunk = new Uint8Array(nodes);
  const came = new Int32Array(nodes).fill(-1);
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
  return { isTrunk, order: new Int32Array(order), came };
}

function islandsOf(grid: Grid, closed: Uint8Array, isTrunk: Uint8Array) {
  const { a, b, offsets, incident, isJoint, isPole } = grid;
  const islandOf = new Int32Array(grid.elements).fill(-1);
  const been = new Uint8Array(grid.nodes);
  const rim: number[] = [];
  const firstRim: number[] = [0];
  const open: number[] = [];
  const sums: number[] = [];
  let sum = 0;
  const take = (i: number) => {
    const k = firstRim.length - 1;
    islandOf[i] = k;
    sum += scattered((i << 2) | (closed[i] as number));
    for (let end = 0; end < 2; end++) {
      const n = (end === 0 ? a : b)[i] as number;
      if (isTrunk[n] === 0) open.push(n);
      else if (rim.indexOf(n, firstRim[k]) < 0) {
        rim.push(n);
        sum += scattered(~n);
      }
    }
  };
  for (let first = 0; first < grid.elements; first++) {
    if (islandOf[first] !== -1 || closed[first] === NO || isPole[first] === 1) continue;
    const isBetween = isTrunk[a[first] as number] === 1 && isTrunk[b[first] as number] === 1;
    if (isBetween && closed[first] === YES && isJoint[first] === 1) continue;
    sum = 0;
    take(first);
    for (let n = open.pop(); n !== undefined; n = open.pop()) {
      if (been[n] === 1) continue;
      been[n] = 1;
      for (let at = offsets[n] as number; at < (offsets[n + 1] as number); at++) {
        const i = incident[at] as number;
        if (islandOf[i] === -1 && closed[i] !== NO) take(i);
      }
    }
    firstRim.push(rim.length);
    sums.push(sum | 0);
  }
  return { islands: listed(islandOf, closed, rim, firstRim, sums), islandOf };
}

/** Counts the elements of each island, then puts each in its place. */
function listed(
  islandOf: Int32Array,
  closed: Uint8Array,
  rim: readonly number[],
  firstRim: readonly number[],
  sums: readonly number[],
): Islands {
  const count = firstRim.length - 1;
  const firstElement = new Int32Array(count + 1);
  for (const k of islandOf) if (k >= 0) (firstElement[k + 1] as number) += 1;
  for (let k = 0; k < count; k++) (firstElement[k + 1] as number) += firstElement[k] as number;
  const next = firstElement.slice();
  const elements = new Int32Array(firstElement[count] as number);
  const isOpen = new Uint8Array(count);
  for (let i = 0; i < islandOf.length; i++) {
    const k = islandOf[i] as number;
    if (k < 0) continue;
    elements[(next[k] as number)++] = i;
    if (closed[i] === MAYBE) isOpen[k] = 1;
  }
  return {
    count,
    elements,
    firstElement,
    rim: new Int32Array(rim),
    firstRim: new Int32Array(firstRim),
    isOpen,
    sum: new Int32Array(sums),
  };
}

/** Elements of island `k`. */
export const elementsOf = ({ elements, firstElement }: Islands, k: number): Int32Array =>
  elements.subarray(firstElement[k], firstElement[k + 1]);

/** Trunk nodes that island `k` hangs on. */
export const rimOf = ({ rim, firstRim }: Islands, k: number): Int32Array => rim.subarray(firstRim[k], firstRim[k + 1]);

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
