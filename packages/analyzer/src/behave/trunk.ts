import type { Circuit, Element } from "../circuit/circuit.ts";
import type { Network } from "../solve/network.ts";
import { elementsAt } from "./feed.ts";
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
  /** What may move the corners: sources that may or may not give, and islands that may or may not draw, largest first. */
  readonly undecided: readonly { readonly amps: number; readonly elements: readonly number[] }[];
  readonly tree: Tree;
}

/** Joints of more ohms than this are no trunk. */
const MOST_OHMS = 0.5;
/** Volts for which the greatest currents are taken. */
const MOST_VOLTS = 15;
/** The heavy corner is rounded outwards, so that nearly equal corners share their islands. */
const STEP_VOLTS = 0.1;
const FINE_VOLTS = 0.02;
/** Draws below this move no corner worth following. */
const LEAST_AMPS = 0.5;

const isJoint = (e: Element): boolean =>
  (e.class === "gate" || (e.class === "conductor" && !e.series)) && e.curve === undefined && e.ohms <= MOST_OHMS;

export function trunkOf(network: Network, closed: Uint8Array): Trunk {
  const { circuit } = network;
  const { elements } = circuit;
  const at = elementsAt(circuit);
  const isTrunk = new Uint8Array(circuit.nodes.length);
  const light = new Float64Array(circuit.nodes.length);
  const heavy = new Float64Array(circuit.nodes.length);
  const sources = polesOf(circuit).filter((i) => closed[i] !== NO);
  const order: number[] = [];
  const came = new Int32Array(circuit.nodes.length).fill(-1);
  const spread = (node: number, volts: number) => {
    const open = [node];
    for (let n = open.pop(); n !== undefined; n = open.pop()) {
      if (isTrunk[n] === 1) continue;
      isTrunk[n] = 1;
      light[n] = volts;
      heavy[n] = volts;
      order.push(n);
      for (const i of at[n] ?? []) {
        const e = elements[i] as Element;
        const far = e.a === n ? e.b : e.a;
        if (closed[i] !== YES || isTrunk[far] === 1 || !isJoint(e)) continue;
        came[far] = i;
        open.push(far);
      }
    }
  };
  spread(circuit.reference, 0);
  // Batteries stand on what they are grounded to; the poles of lower volts first, so that a chain of them adds up.
  for (let more = true; more; ) {
    more = false;
    for (const i of sources) {
      const e = elements[i] as Element;
      if (closed[i] !== YES) continue;
      if (isTrunk[e.a] === isTrunk[e.b]) continue;
      const isUp = isTrunk[e.b] === 1;
      came[isUp ? e.a : e.b] = i;
      if (isUp) spread(e.a, (light[e.b] as number) + emfOf(network, i));
      else spread(e.b, (light[e.a] as number) - emfOf(network, i));
      more = true;
    }
  }
  const islands = islandsOf(network, closed, isTrunk);
  const tree = { order, came };
  sag(network, tree, light, heavy, islands);
  raise(network, sources, isTrunk, light);
  const undecided = [
    ...sources
      .filter((i) => closed[i] === MAYBE)
      .map((i) => ({ amps: Number.POSITIVE_INFINITY, elements: [i] as readonly number[] })),
    ...islands
      .map(({ amps, elements: own }) => ({ amps, elements: own.filter((i) => closed[i] === MAYBE) }))
      .filter((x) => x.amps >= LEAST_AMPS && x.elements.length > 0)
      .sort((x, y) => y.amps - x.amps),
  ];
  const islandOf = new Int32Array(elements.length).fill(-1);
  islands.forEach((island, k) => {
    for (const i of island.elements) islandOf[i] = k;
  });
  return { closed, isTrunk, light, heavy, islands, islandOf, shorted: shortedBy(circuit, closed), undecided, tree };
}

/**
 * The same trunk with its corners drawn together: what certainly conducts draws in both, and only what may or may not
 * conduct lies between.
 *
 * @param volts of the whole loom with all open that may or may not conduct
 */
export function tightened(network: Network, trunk: Trunk, volts: Float64Array): Trunk {
  const { circuit } = network;
  const { closed, isTrunk, tree } = trunk;
  const open = trunk.islands.filter((island) => island.elements.some((i) => closed[i] === MAYBE));
  // A joint beside another makes the trunk lose less; a source may lift it: then the light corner stays as it is.
  const mayRise = [...closed.keys()].some((i) => {
    const e = circuit.elements[i] as Element;
    return closed[i] === MAYBE && isTrunk[e.a] === 1 && isTrunk[e.b] === 1 && (isPole(e) || isJoint(e));
  });
  const outward = (n: number) => {
    const v = volts[n] as number;
    return (trunk.light[n] as number) > 1
      ? Math.ceil(v / FINE_VOLTS) * FINE_VOLTS
      : Math.floor(v / FINE_VOLTS) * FINE_VOLTS;
  };
  const light = mayRise ? trunk.light : trunk.light.map((v, n) => (isTrunk[n] === 1 ? outward(n) : v));
  const heavy = new Float64Array(light.length);
  sag(
    network,
    tree,
    Float64Array.from(volts, (v, n) => (isTrunk[n] === 1 ? v : 0)),
    heavy,
    open,
    FINE_VOLTS,
  );
  return { ...trunk, light, heavy };
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

const isPole = (e: Element): boolean => e.class === "source" && e.ohms <= MOST_OHMS;

const poles = new WeakMap<Circuit, readonly number[]>();

/** Sources stiff enough to hold a trunk. */
function polesOf(circuit: Circuit): readonly number[] {
  let list = poles.get(circuit);
  if (list === undefined) {
    list = circuit.elements.flatMap((e, i) => (isPole(e) ? [i] : []));
    poles.set(circuit, list);
  }
  return list;
}

/** A regulated source is a curve; its volts without current are where the curve starts. */
const emfOf = (network: Network, i: number): number => network.pieces[i]?.[0]?.to ?? (network.emf[i] as number);

interface Island {
  readonly amps: number;
  readonly elements: readonly number[];
  /** Trunk nodes that it hangs on. */
  readonly rim: readonly number[];
}

/** What is closed or may be, without the trunk. An element between two trunk nodes is an island of one. */
function islandsOf(network: Network, closed: Uint8Array, isTrunk: Uint8Array): readonly Island[] {
  const { elements, nodes } = network.circuit;
  const at = elementsAt(network.circuit);
  const seen = new Uint8Array(elements.length);
  const been = new Uint8Array(nodes.length);
  const islands: Island[] = [];
  for (let first = 0; first < elements.length; first++) {
    const e = elements[first] as Element;
    if (seen[first] === 1 || closed[first] === NO || isPole(e)) continue;
    if (isTrunk[e.a] === 1 && isTrunk[e.b] === 1 && closed[first] === YES && isJoint(e)) continue;
    const own: number[] = [first];
    seen[first] = 1;
    const rim = new Set<number>();
    const open: number[] = [];
    const meet = (n: number) => void (isTrunk[n] === 1 ? rim.add(n) : open.push(n));
    meet(e.a);
    meet(e.b);
    for (let n = open.pop(); n !== undefined; n = open.pop()) {
      if (been[n] === 1) continue;
      been[n] = 1;
      for (const i of at[n] ?? []) {
        if (seen[i] === 1 || closed[i] === NO) continue;
        seen[i] = 1;
        own.push(i);
        const o = elements[i] as Element;
        meet(o.a);
        meet(o.b);
      }
    }
    let amps = 0;
    for (const i of own) amps += mostAmps(network, i);
    islands.push({ amps, elements: own, rim: [...rim] });
  }
  return islands;
}

const most = new WeakMap<Network, Float64Array>();

/** The most that a load or a drawn resistance takes; gates and conductors only pass on. */
function mostAmps(network: Network, index: number): number {
  let list = most.get(network);
  if (list === undefined) {
    list = Float64Array.from(network.circuit.elements, (e, i) => {
      if (e.class !== "load" && !(e.class === "stray" && e.curve === undefined) && !e.series) return 0;
      const pieces = network.pieces[i];
      if (pieces === undefined) return MOST_VOLTS * (network.siemens[i] ?? 0);
      const piece = pieces.find((p) => MOST_VOLTS <= p.to);
      return piece === undefined ? 0 : Math.abs(piece.amps0 + piece.siemens * MOST_VOLTS);
    });
    most.set(network, list);
  }
  return list[index] as number;
}

interface Tree {
  /** Nodes in the order in which the trunk was walked, and the element by which each was reached. */
  readonly order: readonly number[];
  readonly came: Int32Array;
}

/** Volts that the trunk loses, taken as the tree that was walked: a second way only makes it lose less. */
function sag(
  network: Network,
  { order, came }: Tree,
  light: Float64Array,
  heavy: Float64Array,
  islands: readonly Island[],
  step = STEP_VOLTS,
): void {
  const { elements } = network.circuit;
  const pulls = new Float64Array(light.length);
  for (const island of islands)
    for (const n of island.rim) (pulls[n] as number) += pullAt(network, island, n, (light[n] as number) > 1);
  for (let k = order.length - 1; k >= 0; k--) {
    const n = order[k] as number;
    const e = elements[came[n] as number];
    if (e !== undefined) (pulls[e.a === n ? e.b : e.a] as number) += pulls[n] as number;
  }
  const lost = new Float64Array(light.length);
  for (const n of order) {
    const e = elements[came[n] as number];
    if (e === undefined) continue;
    const ohms = e.class === "source" ? e.ohms : 1 / (network.siemens[came[n] as number] as number);
    lost[n] = (lost[e.a === n ? e.b : e.a] as number) + (pulls[n] as number) * ohms;
  }
  for (const n of order) {
    const way = (light[n] as number) > 1 ? -1 : 1;
    const out = Math.ceil((lost[n] as number) / step) * step;
    heavy[n] = (light[n] as number) + way * Math.min(out, Math.abs((light[n] as number) || out));
  }
}

/** The most that an island takes from a node of the feed, or gives to one of the return: what its elements there pass. */
function pullAt(network: Network, { amps, elements }: Island, node: number, isFeed: boolean): number {
  let sum = 0;
  for (const i of elements) {
    const e = network.circuit.elements[i] as Element;
    if (e.a !== node && e.b !== node) continue;
    // Current from `a` to `b` leaves the node, or arrives at it.
    const volts = (e.a === node) === isFeed ? MOST_VOLTS : -MOST_VOLTS;
    sum += Math.min(amps, passes(network, i, volts));
    if (sum >= amps) return amps;
  }
  return sum;
}

/** The most that an element passes in the direction of these volts; without bound if it only joins. */
function passes(network: Network, index: number, volts: number): number {
  const e = network.circuit.elements[index] as Element;
  const pieces = network.pieces[index];
  if (pieces !== undefined) {
    const piece = pieces.find((p) => volts <= p.to);
    return piece === undefined ? Infinity : Math.abs(piece.amps0 + piece.siemens * volts);
  }
  if (e.class === "load" || e.class === "stray" || e.series) return MOST_VOLTS * (network.siemens[index] ?? 0);
  return e.oneWay && volts < 0 ? 0 : Infinity;
}

/** Sources of more volts that give or may give lift the light corner of all that they are joined to. */
function raise(network: Network, sources: readonly number[], isTrunk: Uint8Array, light: Float64Array): void {
  for (const i of sources) {
    const e = network.circuit.elements[i] as Element;
    if (isTrunk[e.a] === 0 || isTrunk[e.b] === 0) continue;
    const before = light[e.a] as number;
    const volts = (light[e.b] as number) + emfOf(network, i);
    if (volts > before)
      for (let n = 0; n < light.length; n++) if (isTrunk[n] === 1 && light[n] === before) light[n] = volts;
  }
}
