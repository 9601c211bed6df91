import type { Circuit, Element } from "../circuit/circuit.ts";

/**
 * Designed feed and return. The level of a node is the fewest gates between it and a feed pole, with everything closed.
 * A gate looks from its lower to its higher end if the higher end has its level only through this gate (else see
 * `findHigherEnd`); crossing it the other way is uphill. In a state a node has its designed feed if it is reached from a feed pole through conductors and
 * gates that are closed then, never uphill. Return likewise, from the return poles.
 *
 * Why "only through this gate": a net with two feeds of different lengths (a dash switch, and a relay behind two
 * others) has a lower level than the last gate of its longer feed. Levels alone would call that feed backwards.
 */
interface Levels {
  readonly feed: Int32Array;
  readonly return: Int32Array;
}

export type Way = "feed" | "return";
const UNREACHED = 1 << 20;

const cache = new WeakMap<Circuit, Levels>();

function levelsOf(circuit: Circuit): Levels {
  const known = cache.get(circuit);
  if (known !== undefined) return known;
  const levels = { feed: levelsBy(circuit, "feed"), return: levelsBy(circuit, "return") };
  cache.set(circuit, levels);
  return levels;
}

const carries = (e: Element): boolean => e.class === "conductor" || e.class === "gate";

/** Node at the far end when walking `way` over an element from `node`; -1 if a one-way element forbids it. */
function across(e: Element, node: number, way: Way): number {
  if (e.a === node) return e.oneWay && way === "return" ? -1 : e.b;
  return e.oneWay && way === "feed" ? -1 : e.a;
}

const adjacency = new WeakMap<Circuit, readonly (readonly number[])[]>();

/** Elements at each node. */
export function elementsAt(circuit: Circuit): readonly (readonly number[])[] {
  const known = adjacency.get(circuit);
  if (known !== undefined) return known;
  const lists: number[][] = circuit.nodes.map(() => []);
  circuit.elements.forEach((e, i) => {
    lists[e.a]?.push(i);
    if (e.b !== e.a) lists[e.b]?.push(i);
  });
  adjacency.set(circuit, lists);
  return lists;
}

function levelsBy(circuit: Circuit, way: Way, without: readonly number[] = []): Int32Array {
  const level = new Int32Array(circuit.nodes.length).fill(UNREACHED);
  const at = elementsAt(circuit);
  let ring = circuit.poles.filter((p) => p.way === way).map((p) => p.node);
  for (const n of ring) level[n] = 0;
  // Breadth first with steps of 0 (conductors) and 1 (gates).
  for (let depth = 0; ring.length > 0; depth++) {
    const next: number[] = [];
    const stack = [...ring];
    for (let node = stack.pop(); node !== undefined; node = stack.pop()) {
      if ((level[node] ?? 0) !== depth) continue;
      for (const i of at[node] ?? []) {
        const e = circuit.elements[i] as Element;
        if (!carries(e) || without.includes(i)) continue;
        const far = across(e, node, way);
        const there = depth + (e.class === "gate" ? 1 : 0);
        if (far < 0 || (level[far] ?? 0) <= there) continue;
        level[far] = there;
        (there === depth ? stack : next).push(far);
      }
    }
    ring = next;
  }
  return level;
}

/** Nodes with designed feed (or return) in a state, given which elements conduct then. */
export function reached(circuit: Circuit, closed: Uint8Array, way: Way): Uint8Array {
  const at = elementsAt(circuit);
  const seen = new Uint8Array(circuit.nodes.length);
  const stack = circuit.poles.filter((p) => p.way === way && closed[p.source] === 1).map((p) => p.node);
  for (const n of stack) seen[n] = 1;
  for (let node = stack.pop(); node !== undefined; node = stack.pop()) {
    for (const i of at[node] ?? []) {
      if (closed[i] === 0) continue;
      const far = onwards(circuit, i, node, way);
      if (far < 0 || seen[far] === 1) continue;
      seen[far] = 1;
      stack.push(far);
    }
  }
  return seen;
}

/** Node that designed feed (or return) comes to from `node` over this element, if it conducts; -1 if it does not go there. */
export function onwards(circuit: Circuit, element: number, node: number, way: Way): number {
  const e = circuit.elements[element] as Element;
  if (!carries(e)) return -1;
  const far = across(e, node, way);
  return far >= 0 && e.class === "gate" && isUphillFrom(circuit, element, node, way) ? -1 : far;
}

type End = "a" | "b" | "none";
const looking = new WeakMap<Circuit, Readonly<Record<Way, (End | undefined)[]>>>();

/** The higher end of a gate, if its level comes only through this gate. */
function higherEnd(circuit: Circuit, element: number, way: Way): End {
  let known = looking.get(circuit);
  if (known === undefined) {
    known = { feed: [], return: [] };
    looking.set(circuit, known);
  }
  let end = known[way][element];
  if (end === undefined) {
    end = findHigherEnd(circuit, element, way);
    known[way][element] = end;
  }
  return end;
}

function findHigherEnd(circuit: Circuit, element: number, way: Way): End {
  const e = circuit.elements[element] as Element;
  // A diode passes current in its own direction only; there is no backwards.
  if (e.class !== "gate" || e.oneWay) return "none";
  const level = levelsOf(circuit)[way];
  const [a, b] = [level[e.a] ?? UNREACHED, level[e.b] ?? UNREACHED];
  if (Math.max(a, b) >= UNREACHED) return "none";
  const without = levelsBy(circuit, way, [element]);
  const [aAlone, bAlone] = [without[e.a] ?? UNREACHED, without[e.b] ?? UNREACHED];
  if (a !== b && (a > b ? aAlone : bAlone) > Math.max(a, b)) return a > b ? "a" : "b";
  // Both sides are fed some other way too.
  const common = commonEnd(circuit, element);
  if (common !== undefined) return endOfThrow(circuit, element, common, way);
  // Any other contact looks towards the net that is farther from the poles without it, if that is also the one where
  // a load hangs: a rail feeds a lamp, not a lamp a rail. Where the two signs disagree nothing is claimed.
  if (way === "return" || aAlone === bAlone) return "none";
  const far = aAlone > bAlone ? "a" : "b";
  return hasLoad(circuit, e[far]) && !hasLoad(circuit, e[otherEnd(far)]) ? far : "none";
}

const otherEnd = (end: "a" | "b"): "a" | "b" => (end === "a" ? "b" : "a");

/**
 * One of several contacts of a part that share a terminal, both ends of it fed some other way too. If the shared
 * terminal has its feed through them alone, they select one of several feeds and look to it. Else its own feed tells:
 * they give it on, and look away, if some of them end farther from the poles, or none nearer; but not if all are as far
 * and what hangs there hangs on the shared terminal only.
 */
function endOfThrow(circuit: Circuit, element: number, { end, shared }: Common, way: Way): End {
  const e = circuit.elements[element] as Element;
  const away = otherEnd(end);
  const beside = levelsBy(circuit, way, shared);
  const own = beside[e[end]] ?? UNREACHED;
  const there = beside[e[away]] ?? UNREACHED;
  if (own === UNREACHED) return there === UNREACHED ? "none" : end;
  const ends = shared.map((i) => {
    const { a, b } = circuit.elements[i] as Element;
    return a === e[end] ? b : a;
  });
  // A terminal with nothing on it says nothing.
  const givesOn = ends.some((n) => (beside[n] ?? UNREACHED) > own && (elementsAt(circuit)[n]?.length ?? 0) > 1);
  const collects = ends.some((n) => (beside[n] ?? UNREACHED) < own);
  const leadsNowhere = hasLoad(circuit, e[end]) && !hasLoad(circuit, e[away], "coils too");
  return there >= own && (givesOn || !(collects || leadsNowhere)) ? away : "none";
}

type What = "without coils" | "coils too";
const loaded = new WeakMap<Circuit, Map<What, ReadonlySet<number>>>();

/** Whether a load hangs on the net of this node. */
function hasLoad(circuit: Circuit, node: number, what: What = "without coils"): boolean {
  let known = loaded.get(circuit);
  if (known === undefined) {
    known = new Map();
    loaded.set(circuit, known);
  }
  let nodes = known.get(what);
  if (nodes === undefined) {
    nodes = loadedNodes(circuit, what);
    known.set(what, nodes);
  }
  return nodes.has(node);
}

function loadedNodes(circuit: Circuit, what: What): ReadonlySet<number> {
  const seen = new Set<number>();
  const open = circuit.loads.flatMap((l) => {
    const e = circuit.elements[l.element] as Element;
    return l.judge.kind === "latch" && what === "without coils" ? [] : [e.a, e.b];
  });
  for (let n = open.pop(); n !== undefined; n = open.pop()) {
    if (seen.has(n)) continue;
    seen.add(n);
    for (const i of elementsAt(circuit)[n] ?? []) {
      const e = circuit.elements[i] as Element;
      if (e.class === "conductor" && !e.series) open.push(e.a === n ? e.b : e.a);
    }
  }
  return seen;
}

/** The end that other contacts of the same part share, and all of these contacts. */
interface Common {
  readonly end: "a" | "b";
  readonly shared: readonly number[];
}

function commonEnd(circuit: Circuit, element: number): Common | undefined {
  const e = circuit.elements[element] as Element;
  const at = (end: "a" | "b"): readonly number[] =>
    (elementsAt(circuit)[e[end]] ?? []).filter((i) => {
      const o = circuit.elements[i] as Element;
      return o.class === "gate" && !o.oneWay && o.owner.kind === "part" && o.owner.id === e.owner.id;
    });
  const [atA, atB] = [at("a"), at("b")];
  if (atA.length > 1 === atB.length > 1) return undefined;
  return atA.length > 1 ? { end: "a", shared: atA } : { end: "b", shared: atB };
}

/** Walking from a pole, crossing this gate away from `node` would go against the way it looks. */
function isUphillFrom(circuit: Circuit, element: number, node: number, way: Way): boolean {
  const end = higherEnd(circuit, element, way);
  return end !== "none" && (circuit.elements[element] as Element)[end] === node;
}

/**
 * True if current that enters this gate at `from` crosses it against the way it looks: towards a load on the feed side,
 * towards the return on the other.
 */
export function isUphill(circuit: Circuit, element: number, from: number, way: Way): boolean {
  const e = circuit.elements[element] as Element;
  return isUphillFrom(circuit, element, way === "feed" ? from : e.a === from ? e.b : e.a, way);
}
