import { elementsAt } from "../behave/feed.ts";
import type { Circuit, Element } from "../circuit/circuit.ts";

// Walks over the drawing itself: which nodes wires make one, and where current could go, whatever the state.

/** Which elements a walk may take. */
export type Passes = (e: Element, element: number) => boolean;

/** Wires, joints and connectors; a resistance in series parts two nets. */
export const isJoint: Passes = (e) => e.class === "conductor" && !e.series;
/** What always conducts, unless a fuse has blown: its far side has feed or ground whatever is switched. */
export const isUnswitched: Passes = (e) =>
  isJoint(e, -1) || e.protects || (e.class === "gate" && e.oneWay && e.closed.some((sets) => sets.length === 0));
/** Everything that carries feed or return by design, open or closed. */
export const isCarrier: Passes = (e) => e.class === "conductor" || e.class === "gate";

/** A way from node to node: elements, and the nodes before, between and behind them. */
export interface Way {
  readonly elements: readonly number[];
  readonly nodes: readonly number[];
}

/** Nodes reached from others along what passes; with the current when looking for feed, against it for a return. */
export function reachedFrom(
  circuit: Circuit,
  from: Iterable<number>,
  way: "feed" | "return" | "either",
  passes: Passes,
  mayCross: (element: number, from: number) => boolean = () => true,
): Uint8Array {
  const at = elementsAt(circuit);
  const seen = new Uint8Array(circuit.nodes.length);
  const open = [...from];
  for (const n of open) seen[n] = 1;
  for (let node = open.pop(); node !== undefined; node = open.pop())
    for (const i of at[node] ?? []) {
      const e = circuit.elements[i] as Element;
      if (!passes(e, i) || (e.oneWay && way !== "either" && (way === "feed" ? e.a : e.b) !== node)) continue;
      const far = e.a === node ? e.b : e.a;
      if (seen[far] === 1 || !mayCross(i, node)) continue;
      seen[far] = 1;
      open.push(far);
    }
  return seen;
}

/** Nodes that are one with this node, by what passes. */
export const oneWith = (circuit: Circuit, node: number, passes: Passes = isJoint): Uint8Array =>
  reachedFrom(circuit, [node], "either", passes);

/** The net of each node, by its first node. */
export function netOf(circuit: Circuit, passes: Passes): Int32Array {
  const at = elementsAt(circuit);
  const net = new Int32Array(circuit.nodes.length).fill(-1);
  for (let first = 0; first < net.length; first++) {
    if (net[first] !== -1) continue;
    net[first] = first;
    const open = [first];
    for (let node = open.pop(); node !== undefined; node = open.pop())
      for (const i of at[node] ?? []) {
        const e = circuit.elements[i] as Element;
        const far = e.a === node ? e.b : e.a;
        if (net[far] !== -1 || !passes(e, i)) continue;
        net[far] = first;
        open.push(far);
      }
  }
  return net;
}

/** Where designed feed or return begins. */
export const polesOf = (circuit: Circuit, way: "feed" | "return"): readonly number[] =>
  circuit.poles.filter((p) => p.way === way).map((p) => p.node);

/**
 * Nodes that have feed (or ground) whatever is switched. The exciter of an alternator is ground at rest and feed when it
 * turns: neither is for good.
 */
export function alwaysOn(circuit: Circuit, way: "feed" | "return"): Uint8Array {
  const poles = circuit.poles.filter((p) => p.way === way && circuit.elements[p.source]?.class === "source");
  return reachedFrom(
    circuit,
    poles.map((p) => p.node),
    way,
    isUnswitched,
  );
}

/** What carries feed (or ground) and does not touch what is always the other: a resistor to ground feeds no ground. */
export function carriersOf(circuit: Circuit, way: "feed" | "return"): Passes {
  const other = alwaysOn(circuit, way === "feed" ? "return" : "feed");
  return (e, i) => isCarrier(e, i) && other[e.a] === 0 && other[e.b] === 0;
}

/** Shortest way with the current from one node to another along what passes. */
export function wayBetween(circuit: Circuit, from: number, to: number, passes: Passes): Way | undefined {
  const at = elementsAt(circuit);
  const came = new Map<number, { readonly element: number; readonly node: number }>();
  const seen = new Set([from]);
  const queue = [from];
  for (let q = 0; q < queue.length; q++) {
    const node = queue[q] as number;
    if (node === to) break;
    for (const i of at[node] ?? []) {
      const e = circuit.elements[i] as Element;
      if (!passes(e, i) || (e.oneWay && e.a !== node)) continue;
      const far = e.a === node ? e.b : e.a;
      if (seen.has(far)) continue;
      seen.add(far);
      came.set(far, { element: i, node });
      queue.push(far);
    }
  }
  if (!seen.has(to)) return undefined;
  const elements: number[] = [];
  const nodes = [to];
  for (let node = to; node !== from; ) {
    const step = came.get(node);
    if (step === undefined) return undefined;
    elements.push(step.element);
    nodes.push(step.node);
    node = step.node;
  }
  return { elements: elements.reverse(), nodes: nodes.reverse() };
}

/** Parts along a way, each once. */
export const partsOn = (circuit: Circuit, way: Way): readonly string[] => [
  ...new Set(
    way.elements.flatMap((i) => {
      const { owner } = circuit.elements[i] as Element;
      return owner.kind === "part" ? [owner.id] : [];
    }),
  ),
];
