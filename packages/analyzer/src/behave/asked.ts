import type { Circuit, Element, Load } from "../circuit/circuit.ts";
import { elementsAt, onwards, type Way } from "./feed.ts";
import { type Asked, askedWith, isAskedFor } from "./loads.ts";
import { MAYBE, NO, type Tri, YES } from "./scope.ts";
import type { Topology } from "./topology.ts";

// Whether a load is asked for, where some gates may or may not conduct. It is looked for from the load outwards, up to
// where designed feed and return certainly are: that is a few steps, however large the loom.

/** Whether load `index` has its designed feed and return, or the gates and sources that this hangs on. */
export function askedBy(circuit: Circuit, topology: Topology, index: number): boolean | readonly number[] {
  let asked = topology.asked.get(index);
  if (asked === undefined) {
    asked = findAsked(circuit, topology, circuit.loads[index] as Load);
    topology.asked.set(index, asked);
  }
  return asked;
}

function findAsked(circuit: Circuit, topology: Topology, load: Load): boolean | readonly number[] {
  const certain = certainIn(circuit, topology);
  if (isAskedFor(circuit, certain, load)) return true;
  const { a, b } = circuit.elements[load.element] as Element;
  const search: Outwards = {
    circuit,
    closed: (i) => topology.closed[i] as Tri,
    isAt: (n, way) => certain[way][n] === 1,
  };
  // Feed at the one end and return at the other.
  const sides = [
    [waysTo(search, a, "feed"), waysTo(search, b, "return")],
    [waysTo(search, b, "feed"), waysTo(search, a, "return")],
  ].filter((ends) => ends.every((ways) => ways.isPossible));
  const alone = (g: number) =>
    sides.some((ends) => ends.every((ways) => ways.isCertain || ways.enough.has(g))) ||
    sides.every((ends) => ends.some((ways) => ways.needed.has(g)));
  const gates = [...new Set(sides.flatMap((ends) => ends.flatMap((ways) => [...ways.gates])))];
  if (gates.length === 0) return false;
  const deciding = gates.filter(alone);
  return deciding.length > 0 ? deciding : gates;
}

/** Designed feed and return with all open that may or may not conduct. */
function certainIn(circuit: Circuit, topology: Topology): Asked {
  topology.certain ??= askedWith(
    circuit,
    topology.closed.map((c) => (c === YES ? 1 : 0)),
  );
  return topology.certain;
}

/**
 * Gates and sources that may or may not conduct, on the ways by which feed or return may come to these nodes.
 *
 * @param isEnd nodes at which a way ends
 */
export function gatesTowards(
  circuit: Circuit,
  nodes: readonly number[],
  closed: (element: number) => Tri,
  isEnd: (node: number) => boolean,
): ReadonlySet<number> {
  const search: Outwards = { circuit, closed, isAt: isEnd };
  const ways = (["feed", "return"] as const).flatMap((way) =>
    nodes
      .filter((n) => !isEnd(n) && possibleIn(circuit)[way][n] === 1)
      .map((n) => walkBack(search, n, way, () => true)),
  );
  return new Set(ways.flatMap(({ gates }) => [...gates]));
}

const possible = new WeakMap<Circuit, Asked>();

/** Designed feed and return with all closed: no feed comes to a ground stud, and need not be looked for there. */
function possibleIn(circuit: Circuit): Asked {
  let known = possible.get(circuit);
  if (known === undefined) {
    known = askedWith(circuit, new Uint8Array(circuit.elements.length).fill(1));
    possible.set(circuit, known);
  }
  return known;
}

interface Outwards {
  readonly circuit: Circuit;
  /** Three-valued, by element. */
  readonly closed: (element: number) => Tri;
  /** Where feed, or return, certainly is. */
  readonly isAt: (node: number, way: Way) => boolean;
}

/** How designed feed, or return, may come to a node. */
interface Ways {
  readonly isCertain: boolean;
  readonly isPossible: boolean;
  /** Gates and sources that may or may not conduct, on any way. */
  readonly gates: ReadonlySet<number>;
  /** Each of these alone brings it there, and without each of these it does not come. */
  readonly enough: ReadonlySet<number>;
  readonly needed: ReadonlySet<number>;
}

const NOTHING: ReadonlySet<number> = new Set();
const CERTAIN: Ways = { isCertain: true, isPossible: true, gates: NOTHING, enough: NOTHING, needed: NOTHING };

const NO_WAY: Ways = { ...CERTAIN, isCertain: false, isPossible: false };

function waysTo(search: Outwards, node: number, way: Way): Ways {
  if (search.isAt(node, way)) return CERTAIN;
  if (possibleIn(search.circuit)[way][node] === 0) return NO_WAY;
  const all = walkBack(search, node, way, () => true);
  const by = all.first;
  if (by === undefined) return NO_WAY;
  const surely = walkBack(search, node, way, (g) => search.closed(g) === YES);
  const needed = by.filter((g) => walkBack(search, node, way, (i) => i !== g).first === undefined);
  return { isCertain: false, isPossible: true, gates: all.gates, enough: surely.ends, needed: new Set(needed) };
}

interface Back {
  /** Gates that may or may not conduct on the first way to where feed certainly is; undefined if there is none. */
  readonly first: readonly number[] | undefined;
  /** All such gates that were met. */
  readonly gates: ReadonlySet<number>;
  /** Those that begin at what certainly has it. */
  readonly ends: ReadonlySet<number>;
}

/** Walks against the way that feed takes, from a node to all that may bring it there. */
function walkBack(
  { circuit, closed, isAt }: Outwards,
  from: number,
  way: Way,
  isTaken: (element: number) => boolean,
): Back {
  const at = elementsAt(circuit);
  const sources = sourcesOf(circuit, way);
  const came = new Map<number, readonly number[]>([[from, []]]);
  const gates = new Set<number>();
  const ends = new Set<number>();
  let first: readonly number[] | undefined;
  const open = [from];
  for (let n = open.pop(); n !== undefined; n = open.pop()) {
    const passed = came.get(n) as readonly number[];
    for (const i of sources.get(n) ?? []) {
      if (closed(i) !== MAYBE) continue;
      gates.add(i);
      ends.add(i);
      if (isTaken(i)) first ??= [...passed, i];
    }
    for (const i of at[n] ?? []) {
      const is = closed(i);
      if (is === NO) continue;
      const { a, b } = circuit.elements[i] as Element;
      const before = a === n ? b : a;
      if (onwards(circuit, i, before, way) !== n) continue;
      const isOpen = is === MAYBE;
      const isFed = isAt(before, way);
      if (isOpen) gates.add(i);
      if (isOpen && isFed) ends.add(i);
      if (!isTaken(i)) continue;
      const passing = isOpen ? [...passed, i] : passed;
      if (isFed) first ??= passing;
      else if (!came.has(before)) {
        came.set(before, passing);
        open.push(before);
      }
    }
  }
  return { first, gates, ends };
}

const sourcesBy = new WeakMap<Circuit, Readonly<Record<Way, ReadonlyMap<number, readonly number[]>>>>();

/** Sources whose pole of this way is at a node. */
function sourcesOf(circuit: Circuit, way: Way): ReadonlyMap<number, readonly number[]> {
  let known = sourcesBy.get(circuit);
  if (known === undefined) {
    const of = (w: Way) => {
      const by = new Map<number, number[]>();
      for (const p of circuit.poles) if (p.way === w) by.set(p.node, [...(by.get(p.node) ?? []), p.source]);
      return by;
    };
    known = { feed: of("feed"), return: of("return") };
    sourcesBy.set(circuit, known);
  }
  return known[way];
}
