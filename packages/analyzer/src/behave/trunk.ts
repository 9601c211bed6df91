import type { Network } from "../solve/network.ts";
import { type Grid, gridOf, type Ratings, ratingsOf } from "./grid.ts";
import { elementsFrom, elementsOf, isOpen, rimFrom } from "./hanging.ts";
import { MAYBE, NO } from "./scope.ts";
import type { Topology, Tree } from "./topology.ts";

/**
 * The volts of a trunk under the values of one run. An island feels the others only through these. They lie between two
 * corners: nothing draws, and everything draws all it can.
 */
export interface Trunk {
  readonly topology: Topology;
  /** Volts of the trunk nodes, by node, in both corners. */
  readonly light: Float64Array;
  readonly heavy: Float64Array;
}

/** The heavy corner is rounded outwards, so that nearly equal corners share their islands. */
const STEP_VOLTS = 0.1;
const FINE_VOLTS = 0.02;
/** Draws below this move no corner worth following. */
const LEAST_AMPS = 0.5;

export function trunkOf(network: Network, topology: Topology): Trunk {
  const grid = gridOf(network.circuit);
  const ratings = ratingsOf(network);
  const unloaded = idleOf(grid, ratings, topology.tree);
  const heavy = sagged(grid, ratings, topology, unloaded, false, STEP_VOLTS);
  return { topology, light: raised(grid, ratings, topology, unloaded), heavy };
}

/**
 * The same trunk with its corners drawn together: what certainly conducts draws in both, and only what may or may not
 * conduct lies between.
 *
 * @param volts of the whole loom with all open that may or may not conduct
 */
export function tightened(network: Network, trunk: Trunk, volts: Float64Array): Trunk {
  const grid = gridOf(network.circuit);
  const { topology } = trunk;
  const { closed, isTrunk } = topology;
  // A joint beside another makes the trunk lose less; a source may lift it: then the light corner stays as it is.
  const mayRise = closed.some(
    (c, i) =>
      c === MAYBE &&
      (grid.isPole[i] === 1 || grid.isJoint[i] === 1) &&
      isTrunk[grid.a[i] as number] === 1 &&
      isTrunk[grid.b[i] as number] === 1,
  );
  const outward = (v: number, isFeed: boolean) => (isFeed ? Math.ceil : Math.floor)(v / FINE_VOLTS) * FINE_VOLTS;
  const light = mayRise
    ? trunk.light
    : trunk.light.map((v, n) => (isTrunk[n] === 1 ? outward(volts[n] as number, v > 1) : v));
  const heavy = sagged(grid, ratingsOf(network), topology, volts, true, FINE_VOLTS);
  return { topology, light, heavy };
}

/**
 * What may move the corners: sources that may or may not give, and what feeds islands that may or may not draw, largest
 * first. A bus with forty consumers is fed by one relay: while that is not known, none of the forty need be.
 */
export function movers(network: Network, { topology, light }: Trunk): readonly (readonly number[])[] {
  const { closed, hanging, isTrunk } = topology;
  const isMaybe = (i: number) => closed[i] === MAYBE;
  const { poles, a, b } = gridOf(network.circuit);
  const { mostAmps } = ratingsOf(network);
  const isFeed = (n: number) => isTrunk[n] === 1 && (light[n] as number) > 1;
  const feeds = (i: number) => isFeed(a[i] as number) || isFeed(b[i] as number);
  const drawing = Array.from({ length: hanging.count }, (_, k) => k)
    .filter((k) => isOpen(hanging, k))
    .map((k) => [...elementsOf(hanging, k)])
    .map((elements) => ({ elements, amps: elements.reduce((sum, i) => sum + (mostAmps[i] as number), 0) }))
    .filter((x) => x.amps >= LEAST_AMPS)
    .sort((x, y) => y.amps - x.amps);
  return [
    ...poles.filter(isMaybe).map((i) => [i]),
    ...drawing.map(({ elements }) => {
      const maybe = elements.filter(isMaybe);
      const feeding = maybe.filter(feeds);
      return feeding.length > 0 ? feeding : maybe;
    }),
  ];
}

const farEnd = ({ a, b }: Grid, i: number, n: number): number => (a[i] === n ? b[i] : a[i]) as number;

/** Volts of a trunk with nothing drawn. */
function idleOf(grid: Grid, ratings: Ratings, tree: Tree): Float64Array {
  let volts = ratings.idle.get(tree);
  if (volts === undefined) {
    volts = findIdle(grid, ratings, tree);
    ratings.idle.set(tree, volts);
  }
  return volts;
}

function findIdle(grid: Grid, { emf }: Ratings, { order, came }: Tree): Float64Array {
  const volts = new Float64Array(grid.nodes);
  for (const n of order) {
    const i = came[n] as number;
    if (i < 0) continue;
    const before = volts[farEnd(grid, i, n)] as number;
    const own = grid.isPole[i] === 0 ? 0 : (emf[i] as number);
    volts[n] = grid.a[i] === n ? before + own : before - own;
  }
  return volts;
}

/**
 * Volts after what the trunk loses, taken as the tree that was walked: a second way only makes it lose less. An island
 * takes from each node no more than it can draw in all, and no more than its elements there pass.
 *
 * @param isOpenOnly only what may or may not conduct draws
 */
function sagged(
  grid: Grid,
  { ohms, passesOn, passesBack, mostAmps, scratch }: Ratings,
  { tree, isTrunk, hanging }: Topology,
  from: Float64Array,
  isOpenOnly: boolean,
  step: number,
): Float64Array {
  const { a, b } = grid;
  const { order, came } = tree;
  const { own, lost } = scratch;
  const pulls = scratch.pulls.fill(0);
  const { count, list } = hanging;
  for (let k = 0; k < count; k++) {
    if (isOpenOnly && !isOpen(hanging, k)) continue;
    let amps = 0;
    for (let at = elementsFrom(hanging, k), end = elementsFrom(hanging, k + 1); at < end; at++) {
      const i = list[at] as number;
      const x = a[i] as number;
      const y = b[i] as number;
      amps += mostAmps[i] as number;
      // Current from `a` to `b` leaves a node of the feed at `a`, and arrives at one of the return at `b`.
      if (isTrunk[x] === 1) (own[x] as number) += ((from[x] as number) > 1 ? passesOn[i] : passesBack[i]) as number;
      if (isTrunk[y] === 1) (own[y] as number) += ((from[y] as number) > 1 ? passesBack[i] : passesOn[i]) as number;
    }
    for (let at = rimFrom(hanging, k), end = rimFrom(hanging, k + 1); at < end; at++) {
      const n = list[at] as number;
      (pulls[n] as number) += Math.min(amps, own[n] as number);
      own[n] = 0;
    }
  }
  for (let k = order.length - 1; k >= 0; k--) {
    const n = order[k] as number;
    const i = came[n] as number;
    if (i >= 0) (pulls[farEnd(grid, i, n)] as number) += pulls[n] as number;
  }
  lost.fill(0);
  const heavy = new Float64Array(grid.nodes);
  for (let k = 0; k < order.length; k++) {
    const n = order[k] as number;
    const i = came[n] as number;
    if (i >= 0) lost[n] = (lost[farEnd(grid, i, n)] as number) + (pulls[n] as number) * (ohms[i] as number);
    const volts = from[n] as number;
    const out = Math.ceil((lost[n] as number) / step) * step;
    heavy[n] = volts + (volts > 1 ? -1 : 1) * Math.min(out, Math.abs(volts || out));
  }
  return heavy;
}

/** Sources of more volts that give or may give lift the light corner of all that they are joined to. */
function raised(
  { poles, a, b }: Grid,
  { emf }: Ratings,
  { closed, isTrunk, tree }: Topology,
  unloaded: Float64Array,
): Float64Array {
  let light = unloaded;
  for (const i of poles) {
    const [up, down] = [a[i] as number, b[i] as number];
    if (closed[i] === NO || isTrunk[up] === 0 || isTrunk[down] === 0) continue;
    const before = light[up] as number;
    const volts = (light[down] as number) + (emf[i] as number);
    if (volts <= before) continue;
    if (light === unloaded) light = unloaded.slice();
    for (const n of tree.order) if (light[n] === before) light[n] = volts;
  }
  return light;
}
