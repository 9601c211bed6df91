import { emptyFactor, patternOf } from "./factor.ts";
import type { Network, Solvable } from "./network.ts";
import { operate } from "./operate.ts";

/** Some elements of a network, solved by themselves: the rest is felt only through the volts of the nodes given. */
export interface NetworkPart extends Solvable {
  /** Elements and nodes of the whole network. */
  readonly elements: readonly number[];
  readonly nodes: readonly number[];
}

/** @param isGiven one byte a node of the whole network: 1 where the volts will be given. The reference always is. */
export function partOf(network: Network, elements: readonly number[], isGiven: Uint8Array): NetworkPart {
  const { circuit } = network;
  const local = new Map<number, number>();
  const nodes: number[] = [];
  const at = (node: number): number => {
    let l = local.get(node);
    if (l === undefined) {
      l = nodes.push(node) - 1;
      local.set(node, l);
    }
    return l;
  };
  const ends = elements.map((i) => {
    const e = circuit.elements[i] as Network["circuit"]["elements"][number];
    return { a: at(e.a), b: at(e.b) };
  });
  const fixed = Uint8Array.from(nodes, (n) => (n === circuit.reference || isGiven[n] === 1 ? 1 : 0));
  const pattern = patternOf(
    nodes.length,
    fixed,
    ends.map((e) => [e.a, e.b] as const),
  );
  return {
    elements,
    nodes,
    circuit: { nodes: nodes.map((n) => circuit.nodes[n] ?? ""), elements: ends },
    pattern,
    factor: emptyFactor(pattern),
    siemens: Float64Array.from(elements, (i) => network.siemens[i] as number),
    emf: Float64Array.from(elements, (i) => network.emf[i] as number),
    pieces: elements.map((i) => network.pieces[i]),
  };
}

/** Volts and amps of a part, by node and element of the part. */
export interface PartPoint {
  readonly volts: Float64Array;
  readonly amps: Float64Array;
}

/**
 * @param closed one byte an element of the part
 * @param given volts by node of the whole network
 */
export function operatePart(part: NetworkPart, closed: Uint8Array, given: Float64Array): PartPoint {
  // Only the nodes that are given keep their volts; the others start at nothing.
  const start = Float64Array.from(part.nodes, (n, l) =>
    (part.pattern.step[l] as number) < 0 ? (given[n] as number) : 0,
  );
  return operate(part, closed, start);
}
