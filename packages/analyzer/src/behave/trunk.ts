import type { Circuit } from "../circuit/circuit.ts";
import type { Network } from "../solve/network.ts";
import { type Grid, gridOf } from "./grid.ts";
import { poleWays } from "./pole-ways.ts";
import { MAYBE, NO, YES } from "./scope.ts";

/**
 * A circuit cut at its trunk: the nodes that conductors and closed gates join to the poles of the batteries. What hangs
 * between trunk nodes falls into islands, each of which feels the others only through the volts of the trunk. Those lie
 * between two corners: nothing draws, and everything draws all it can.
 */
export interface Trunk {
  /** Three-valued, one byte an element. */
  readonly closed: Uint8Array;
  /** One byte a node. */
  readonly isTrunk: Uint8Array;
  /** Volts of the trunk nodes, by node, in both corners. */
  readonly light: Float64Array;
  readonly heavy: Float64Array;
  /** What hangs between the trunk's nodes, and by element which of these it is in; -1 for the trunk itself. */
  readonly islands: readonly Island[];
  readonly islandOf: Int32Array;
  /** Feed meets ground, or may: nothing is bounded then. The elements that leave it open, or the rest of the loom. */
  readonly shorted: readonly number[] | undefined;
  readonly tree: Tree;
}

/** What is closed or may be, without the trunk. An element between two trunk nodes is an island of one. */
export interface Island {
  /** The most that all of it can draw. */
  readonly amps: number;
  /** Ascending. */
  readonly elements: readonly number[];
  /** Trunk nodes that it hangs on. */
  readonly rim: readonly number[];
  readonly isOpen: boolean;
}

/** The trunk as it was walked: nodes in order, and the element by which each was reached. */
interface Tree {
  readonly order: readonly number[];
  readonly came: Int32Array;
}

/** The heavy corner is rounded outwards, so that nearly equal corners share their islands. */
const STEP_VOLTS = 0.1;
const FINE_VOLTS = 0.02;
/** Draws below this move no corner worth following. */
const LEAST_AMPS = 0.5;

export function trunkOf(network: Network, closed: Uint8Array): Trunk {
  const { circuit } = network;
  const grid = gridOf(network);
  const { a, b, offsets, incident, isJoint, emf } = grid;
  const isTrunk = new Uint8Array(grid.nodes);
  const light = new Float64Array(grid.nodes);
  const order: number[] = [];
  const came = new Int32Array(grid.nodes).fill(-1);
  const open: number[] = [];
  const spread = (start: number, volts: number) => {
    open.push(start);
    for (let n = open.pop(); n !== undefined; n = open.pop()) {
      if (isTrunk[n] === 1) continue;
      isTrunk[n] = 1;
      light[n] = volts;
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
  spread(circuit.reference, 0);
  // Batteries stand on what they are grounded to; the poles of lower volts first, so that a chain of them adds up.
  for (let more = true; more; ) {
    more = false;
    for (const i of grid.poles) {
      const [up, down] = [a[i] as number, b[i] as number];
      if (closed[i] !== YES || isTrunk[up] === isTrunk[down]) continue;
      const isUp = isTrunk[down] === 1;
      came[isUp ? up : down] = i;
      if (isUp) spread(up, (light[down] as number) + (emf[i] as number));
      else spread(down, (light[up] as number) - (emf[i] as number));
      more = true;
    }
  }
  const { islands, islandOf } = islandsOf(grid, closed, isTrunk);
  const tree = { order, came };
  const heavy = sagged(grid, tree, light, islands, isTrunk, STEP_VOLTS);
  raise(grid, closed, isTrunk, light);
  return { closed, isTrunk, light, heavy, islands, islandOf, shorted: shortedBy(circuit, closed), tree };
}

/**
 * The same trunk with its corners drawn together: what certainly conducts draws in both, and only what may or may not
 * conduct lies between.
 *
 * @param volts of the whole loom with all open that may or may not conduct
 */
export function tightened(network: Network, trunk: Trunk, volts: Float64Array): Trunk {
  const grid = gridOf(network);
  const { closed, isTrunk, tree } = trunk;
  const open = trunk.islands.filter((island) => island.isOpen);
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
  const heavy = sagged(grid, tree, volts, open, isTrunk, FINE_VOLTS);
  return { ...trunk, light, heavy };
}

/** What may move the corners: sources that may or may not give, and islands that may or may not draw, largest first. */
export function movers(network: Network, { closed, islands }: Trunk): readonly (readonly number[])[] {
  const isMaybe = (i: number) => closed[i] === MAYBE;
  const sources = gridOf(network).poles.filter(isMaybe);
  const drawing = islands.filter((x) => x.isOpen && x.amps >= LEAST_AMPS).sort((x, y) => y.amps - x.amps);
  return [...sources.map((i) => [i]), ...drawing.map((x) => x.elements.filter(isMaybe))];
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

function islandsOf(grid: Grid, closed: Uint8Array, isTrunk: Uint8Array) {
  const { a, b, offsets, incident, isJoint, isPole, mostAmps } = grid;
  const islandOf = new Int32Array(grid.elements).fill(-1);
  const been = grid.scratch.been.fill(0);
  const islands: Island[] = [];
  const open: number[] = [];
  for (let first = 0; first < grid.elements; first++) {
    if (islandOf[first] !== -1 || closed[first] === NO || isPole[first] === 1) continue;
    const isBetween = isTrunk[a[first] as number] === 1 && isTrunk[b[first] as number] === 1;
    if (isBetween && closed[first] === YES && isJoint[first] === 1) continue;
    const k = islands.length;
    const elements: number[] = [];
    const rim: number[] = [];
    let amps = 0;
    let isOpen = false;
    const take = (i: number) => {
      islandOf[i] = k;
      elements.push(i);
      amps += mostAmps[i] as number;
      isOpen ||= closed[i] === MAYBE;
      for (const n of [a[i] as number, b[i] as number])
        if (isTrunk[n] === 0) open.push(n);
        else if (!rim.includes(n)) rim.push(n);
    };
    take(first);
    for (let n = open.pop(); n !== undefined; n = open.pop()) {
      if (been[n] === 1) continue;
      been[n] = 1;
      for (let at = offsets[n] as number; at < (offsets[n + 1] as number); at++) {
        const i = incident[at] as number;
        if (islandOf[i] === -1 && closed[i] !== NO) take(i);
      }
    }
    elements.sort((x, y) => x - y);
    islands.push({ amps, elements, rim, isOpen });
  }
  return { islands, islandOf };
}

/**
 * Volts after what the trunk loses, taken as the tree that was walked: a second way only makes it lose less. An island
 * takes from each node no more than it can draw in all, and no more than its elements there pass.
 */
function sagged(
  grid: Grid,
  { order, came }: Tree,
  from: Float64Array,
  islands: readonly Island[],
  isTrunk: Uint8Array,
  step: number,
): Float64Array {
  const { a, b, ohms, passesOn, passesBack } = grid;
  const { own, lost } = grid.scratch;
  const pulls = grid.scratch.pulls.fill(0);
  for (const { amps, elements, rim } of islands) {
    for (const i of elements) {
      const [x, y] = [a[i] as number, b[i] as number];
      // Current from `a` to `b` leaves a node of the feed at `a`, and arrives at one of the return at `b`.
      if (isTrunk[x] === 1) (own[x] as number) += ((from[x] as number) > 1 ? passesOn[i] : passesBack[i]) as number;
      if (isTrunk[y] === 1) (own[y] as number) += ((from[y] as number) > 1 ? passesBack[i] : passesOn[i]) as number;
    }
    for (const n of rim) {
      (pulls[n] as number) += Math.min(amps, own[n] as number);
      own[n] = 0;
    }
  }
  const upstream = (n: number) => {
    const i = came[n] as number;
    return i < 0 ? -1 : ((a[i] === n ? b[i] : a[i]) as number);
  };
  for (let k = order.length - 1; k >= 0; k--) {
    const n = order[k] as number;
    const up = upstream(n);
    if (up >= 0) (pulls[up] as number) += pulls[n] as number;
  }
  lost.fill(0);
  const heavy = new Float64Array(grid.nodes);
  for (const n of order) {
    const up = upstream(n);
    if (up >= 0) lost[n] = (lost[up] as number) + (pulls[n] as number) * (ohms[came[n] as number] as number);
    const volts = from[n] as number;
    const out = Math.ceil((lost[n] as number) / step) * step;
    heavy[n] = volts + (volts > 1 ? -1 : 1) * Math.min(out, Math.abs(volts || out));
  }
  return heavy;
}

/** Sources of more volts that give or may give lift the light corner of all that they are joined to. */
function raise({ poles, a, b, emf }: Grid, closed: Uint8Array, isTrunk: Uint8Array, light: Float64Array): void {
  for (const i of poles) {
    const [up, down] = [a[i] as number, b[i] as number];
    if (closed[i] === NO || isTrunk[up] === 0 || isTrunk[down] === 0) continue;
    const before = light[up] as number;
    const volts = (light[down] as number) + (emf[i] as number);
    if (volts > before)
      for (let n = 0; n < light.length; n++) if (isTrunk[n] === 1 && light[n] === before) light[n] = volts;
  }
}
