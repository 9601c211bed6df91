import { COIL_CELSIUS, copperFactor, SUPPLY_12V } from "@loomproof/netlist";
import type { Circuit, Element } from "../circuit/circuit.ts";
import { type Curve, type Piece, pieceAt, piecesOf } from "../circuit/curve.ts";
import type { Patch } from "../circuit/patch.ts";
import { emptyFactor, type Factor, type Pattern, patternOf } from "./factor.ts";

/** What elements are worth under a patch, whatever it leaves out. */
export interface Values {
  /** Conductance of straight elements in siemens; 0 where a curve stands. */
  readonly siemens: Float64Array;
  readonly emf: Float64Array;
  readonly pieces: readonly (readonly Piece[] | undefined)[];
}

/** What a solve needs: elements between nodes, their values, and room to write. */
export interface Solvable {
  readonly circuit: {
    readonly nodes: readonly string[];
    readonly elements: readonly { readonly a: number; readonly b: number }[];
  };
  readonly pattern: Pattern;
  readonly values: Values;
  readonly factor: Factor;
  /** By element: the nodes at its ends, and the steps at which these are eliminated; -1 where the volts are given. */
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly x: Int32Array;
  readonly y: Int32Array;
  /** Elements with a curve. */
  readonly curved: readonly number[];
  readonly scratch: Scratch;
}

/** What a solve writes on and nobody keeps: by step, else by element. */
export interface Scratch {
  readonly step: Float64Array;
  readonly slope: Float64Array;
  readonly across: Float64Array;
  /** The piece that each curve is at, and where along a line it bends next. */
  readonly piece: Int32Array;
  readonly bend: Float64Array;
  /** Curves that bend along the line at all, the first so many. */
  readonly bending: Int32Array;
}

export function solvable(circuit: Solvable["circuit"], pattern: Pattern, values: Values): Solvable {
  const { elements } = circuit;
  const stepOf = (n: number) => pattern.step[n] as number;
  return {
    circuit,
    pattern,
    values,
    factor: emptyFactor(pattern),
    a: Int32Array.from(elements, (e) => e.a),
    b: Int32Array.from(elements, (e) => e.b),
    x: Int32Array.from(elements, (e) => stepOf(e.a)),
    y: Int32Array.from(elements, (e) => stepOf(e.b)),
    curved: elements.flatMap((_, i) => (values.pieces[i] === undefined ? [] : [i])),
    scratch: {
      step: new Float64Array(pattern.size),
      slope: new Float64Array(elements.length),
      across: new Float64Array(elements.length),
      piece: new Int32Array(elements.length),
      bend: new Float64Array(elements.length),
      bending: new Int32Array(elements.length),
    },
  };
}

/** A circuit with the values of one patch, ready to be solved in any state. */
export interface Network {
  readonly circuit: Circuit;
  /** These two are the same for all patches that differ in nothing but what they leave out. */
  readonly values: Values;
  readonly solvable: Solvable;
  /** Elements that the patch leaves out. */
  readonly absent: Uint8Array;
}

/** By circuit, and by the values of a patch: many patches only leave out different wires. */
const solvables = new WeakMap<Circuit, Map<string, Solvable>>();

/** The values of the circuit under a patch. */
export function networkOf(circuit: Circuit, patch: Patch): Network {
  const absent = new Uint8Array(circuit.elements.length);
  for (const e of patch.open) absent[e] = 1;
  circuit.elements.forEach((e, i) => {
    if (e.unknown !== undefined && !patch.present.includes(e.unknown)) absent[i] = 1;
  });
  const own = solvableOf(circuit, patch);
  return { circuit, values: own.values, solvable: own, absent };
}

function solvableOf(circuit: Circuit, patch: Patch): Solvable {
  let known = solvables.get(circuit);
  if (known === undefined) {
    known = new Map();
    solvables.set(circuit, known);
  }
  const key = `${patch.supply} ${patch.draw} ${patch.coilCelsius}`;
  let own = known.get(key);
  if (own === undefined) {
    const pattern = [...known.values()][0]?.pattern ?? wholePattern(circuit);
    own = solvable(circuit, pattern, valuesOf(circuit, patch));
    known.set(key, own);
  }
  return own;
}

const wholePattern = (circuit: Circuit): Pattern =>
  patternOf(
    circuit.nodes.length,
    Uint8Array.from(circuit.nodes, (_, n) => (n === circuit.reference ? 1 : 0)),
    circuit.elements.map((e) => [e.a, e.b] as const),
  );

function valuesOf(circuit: Circuit, patch: Patch): Values {
  const { elements } = circuit;
  const supplyOf = (e: Element): number =>
    e.supply === undefined || circuit.fixedSupply ? 1 : SUPPLY_12V[e.supply][patch.supply] / SUPPLY_12V[e.supply].usual;
  const copper = copperFactor(patch.coilCelsius) / copperFactor(COIL_CELSIUS.usual);
  return {
    siemens: Float64Array.from(elements, (e) =>
      e.curve === undefined ? 1 / (ohmsOf(e) * (e.copper ? copper : 1)) : 0,
    ),
    emf: Float64Array.from(elements, (e) => e.emf * supplyOf(e)),
    pieces: elements.map((e) =>
      e.curve === undefined ? undefined : piecesOf(scaled(e.curve[patch.draw], supplyOf(e))),
    ),
  };
}

/** A regulated source is a curve; its volts follow the corner too. */
const scaled = (curve: Curve, by: number): Curve =>
  by === 1 ? curve : { ...curve, volts: curve.volts.map((v) => v * by) };

/** Nothing in a loom is an ideal short; a value that small is a slip in the file or in a family. */
const ohmsOf = (e: Element): number => Math.max(e.ohms, 1e-6);

/** Amps that an element passes from `a` to `b` at these volts over it. */
export function ampsAt({ pieces, siemens, emf }: Values, element: number, volts: number): number {
  const list = pieces[element];
  if (list === undefined) return (volts - (emf[element] as number)) * (siemens[element] as number);
  const piece = pieceAt(list, volts);
  return piece.amps0 + piece.siemens * volts;
}
