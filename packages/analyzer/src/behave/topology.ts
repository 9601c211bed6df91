import type { Circuit } from "../circuit/circuit.ts";
import type { Bay } from "./bay.ts";
import { type Grid, gridOf } from "./grid.ts";
import { type Hanging, hangingOn } from "./hanging.ts";
import { textOf } from "./key-text.ts";
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
  readonly tree: Tree;
  /** That of the tree. */
  readonly isTrunk: Uint8Array;
  /** What hangs between the trunk's nodes. */
  readonly hanging: Hanging;
  /** Feed meets ground, or may: nothing is bounded then. The elements that leave it open, or the rest of the loom. */
  readonly shorted: readonly number[] | undefined;
  /** What each probe touches, by its number, once asked. */
  readonly bays: Map<number, Bay>;
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
  return {
    closed,
    tree,
    isTrunk,
    hanging: hangingOn(grid, closed, isTrunk),
    shorted: shortedBy(circuit, closed),
    bays: new Map(),
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
