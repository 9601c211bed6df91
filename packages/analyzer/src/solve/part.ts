import type { Circuit } from "../circuit/circuit.ts";
import { type Pattern, patternOf } from "./factor.ts";
import { type Network, type Solvable, solvable } from "./network.ts";
import { operate } from "./operate.ts";

/** Some elements of a circuit by themselves, whatever their values. */
export interface PartShape {
  /** Elements and nodes of the whole circuit, and the place of each in the part. */
  readonly elements: readonly number[];
  readonly nodes: readonly number[];
  readonly elementAt: ReadonlyMap<number, number>;
  readonly nodeAt: ReadonlyMap<number, number>;
  /** The same as a circuit of its own. */
  readonly circuit: Solvable["circuit"];
  readonly pattern: Pattern;
}

/** @param isGiven one byte a node of the whole circuit: 1 where the volts will be given. The reference always is. */
export function partShape(circuit: Circuit, elements: readonly number[], isGiven: Uint8Array): PartShape {
  const nodeAt = new Map<number, number>();
  const nodes: number[] = [];
  const at = (node: number): number => {
    let l = nodeAt.get(node);
    if (l === undefined) {
      l = nodes.push(node) - 1;
      nodeAt.set(node, l);
    }
    return l;
  };
  const ends = elements.map((i) => {
    const e = circuit.elements[i] as Circuit["elements"][number];
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
    elementAt: new Map(elements.map((i, l) => [i, l])),
    nodeAt,
    circuit: { nodes: nodes.map((n) => circuit.nodes[n] ?? ""), elements: ends },
    pattern,
  };
}

/** A part with the values of a network: the rest is felt only through the volts of the nodes given. */
export const partOf = ({ values }: Network, { circuit, pattern, elements }: PartShape): Solvable =>
  solvable(circuit, pattern, {
    siemens: Float64Array.from(elements, (i) => values.siemens[i] as number),
    emf: Float64Array.from(elements, (i) => values.emf[i] as number),
    pieces: elements.map((i) => values.pieces[i]),
  });

/** Volts and amps of a part, by node and element of the part. */
export interface PartPoint {
  readonly volts: Float64Array;
  readonly amps: Float64Array;
}

/**
 * @param closed one byte an element of the part
 * @param given volts by node of the part; only those of nodes that are given count
 */
export const operatePart = (part: Solvable, closed: Uint8Array, given: Float64Array): PartPoint =>
  operate(part, closed, given);
