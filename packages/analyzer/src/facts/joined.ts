import { isUphill } from "../behave/feed.ts";
import type { Circuit, Element, Load, WireFact } from "../circuit/circuit.ts";
import {
  alwaysOn,
  isCarrier,
  isJoint,
  isUnswitched,
  netOf,
  oneWith,
  type Passes,
  polesOf,
  reachedFrom,
} from "./ways.ts";

// What is joined in the drawing that can feed one thing together: fuses side by side, outputs bridged by a wire.

/** One of the two nodes of an element that lies in a net, if just one does. */
export function endIn(e: Element, net: Uint8Array): number | undefined {
  if (net[e.a] === net[e.b]) return undefined;
  return net[e.a] === 1 ? e.a : e.b;
}

export const otherEnd = (e: Element, node: number): number => (e.a === node ? e.b : e.a);

/** Every net that at least two elements of a kind touch from outside, as its nodes. */
export function* netsTouched(circuit: Circuit, isKind: Passes, passes: Passes = isJoint): Iterable<Uint8Array> {
  const net = netOf(circuit, passes);
  const touched = new Map<number, number>();
  circuit.elements.forEach((e, i) => {
    const [a, b] = [net[e.a] ?? 0, net[e.b] ?? 0];
    if (a === b || !isKind(e, i)) return;
    for (const n of [a, b]) touched.set(n, (touched.get(n) ?? 0) + 1);
  });
  for (const [n, count] of touched) if (count > 1) yield Uint8Array.from(net, (own) => (own === n ? 1 : 0));
}

/** Fuses that feed one net from one source, each on its own. */
interface ParallelFuses {
  readonly fuses: readonly number[];
  readonly node: number;
}

export function parallelFuses(circuit: Circuit): readonly ParallelFuses[] {
  return [...netsTouched(circuit, (e) => e.protects)].flatMap((net) => {
    const around = circuit.elements.flatMap((e, i) => (e.protects && endIn(e, net) !== undefined ? [i] : []));
    if (around.length < 2) return [];
    for (const pole of polesOf(circuit, "feed")) {
      if (net[pole] === 1) continue;
      const fed = reachedFrom(
        circuit,
        [pole],
        "feed",
        (e, i) => isUnswitched(e, i) && net[e.a] === 0 && net[e.b] === 0,
      );
      const fuses = around.filter((i) => {
        const e = circuit.elements[i] as Element;
        return fed[otherEnd(e, endIn(e, net) as number)] === 1;
      });
      const [first] = fuses;
      if (first !== undefined && fuses.length > 1)
        return [{ fuses, node: endIn(circuit.elements[first] as Element, net) as number }];
    }
    return [];
  });
}

/** Nodes that have feed or ground whatever is switched. */
export function alwaysJoined(circuit: Circuit): Uint8Array {
  const back = alwaysOn(circuit, "return");
  return alwaysOn(circuit, "feed").map((is, n) => is | (back[n] ?? 0));
}

/** Two outputs of one sense, each with loads of its own, and the wire that joins them. */
export interface Bridge {
  readonly wire: WireFact;
  readonly net: Uint8Array;
  /** Pins of the outputs on either side, and the parts they work. */
  readonly pins: readonly string[];
  readonly parts: readonly string[];
  readonly loads: readonly string[];
}

/** Without the wire, every output still has a load, and every load its output. */
export function bridges(circuit: Circuit): readonly Bridge[] {
  const found: Bridge[] = [];
  const outputs = new Set(circuit.outputs.map((o) => o.element));
  const always = alwaysJoined(circuit);
  for (const net of netsTouched(circuit, (_, i) => outputs.has(i))) {
    // What has feed or ground whatever is switched is where outputs take it from, not what they work.
    if (net.some((is, n) => is === 1 && always[n] === 1)) continue;
    for (const wire of circuit.wires) {
      const e = circuit.elements[wire.element] as Element | undefined;
      if (e === undefined || net[e.a] === 0) continue;
      const sideA = oneWith(circuit, e.a, (x, i) => i !== wire.element && isJoint(x, i));
      if (sideA[e.b] === 1) continue;
      const sideB = oneWith(circuit, e.b, (x, i) => i !== wire.element && isJoint(x, i));
      const bridge = bridgeOf(circuit, wire, net, [sideA, sideB]);
      if (bridge !== undefined) {
        found.push(bridge);
        break;
      }
    }
  }
  return found;
}

function bridgeOf(
  circuit: Circuit,
  wire: WireFact,
  net: Uint8Array,
  sides: readonly [Uint8Array, Uint8Array],
): Bridge | undefined {
  const [a, b] = sides.map((side) => ({ outputs: outputsIn(circuit, side), loads: loadsIn(circuit, side) }));
  if (a === undefined || b === undefined || a.loads.length === 0 || b.loads.length === 0) return undefined;
  for (const one of a.outputs)
    for (const two of b.outputs)
      if (one.isFeed === two.isFeed && one.command !== two.command)
        return { wire, net, pins: [one.pin, two.pin], parts: [one.part, two.part], loads: [...a.loads, ...b.loads] };
  return undefined;
}

/** What moves an element, as far as two can be compared: same text, same command. */
export const commandOf = (e: Element): string => JSON.stringify(e.closed);

function outputsIn(circuit: Circuit, side: Uint8Array) {
  return circuit.outputs.flatMap(({ element, part }) => {
    const e = circuit.elements[element] as Element;
    const end = endIn(e, side);
    return end === undefined
      ? []
      : [{ part, pin: circuit.nodes[end] ?? "", isFeed: end === e.b, command: commandOf(e) }];
  });
}

const loadsIn = (circuit: Circuit, side: Uint8Array): readonly string[] => [
  ...new Set(
    circuit.loads.filter((l) => endIn(circuit.elements[l.element] as Element, side) !== undefined).map((l) => l.part),
  ),
];

/** A contact or output: something moves it. */
export const isSwitched = (e: Element): boolean => e.class === "gate" && !e.protects && !e.oneWay;

/** Loads with an end among these nodes. */
export const loadsOn = (circuit: Circuit, ends: Uint8Array): readonly Load[] =>
  circuit.loads.filter((l) => {
    const e = circuit.elements[l.element] as Element;
    return ends[e.a] === 1 || ends[e.b] === 1;
  });

/** Loads that hang on these nodes, also behind contacts that surely look away from them. */
export const loadsBehind = (circuit: Circuit, nodes: readonly number[]): readonly Load[] =>
  loadsOn(
    circuit,
    reachedFrom(circuit, nodes, "feed", isCarrier, (i, from) => {
      const e = circuit.elements[i] as Element;
      return !isSwitched(e) || isUphill(circuit, i, otherEnd(e, from), "feed");
    }),
  );
