import { type Piece, pieceAt } from "../circuit/curve.ts";
import { factorize, substitute } from "./factor.ts";
import type { Solvable } from "./network.ts";

/** The operating point of one state: volts over the reference and amps from `a` to `b` of each element. */
export interface OperatingPoint {
  readonly volts: Float64Array;
  readonly amps: Float64Array;
  /** Largest sum of currents at any node, A: Kirchhoff's current law, computed from the element currents. */
  readonly residual: number;
  readonly iterations: number;
}

/** Kirchhoff's current law must hold to this many amps, or to this share of the largest current. */
const LAW_AMPS = 1e-6;
const LAW_SHARE = 1e-9;
const MOST_ITERATIONS = 60;
/** Share of the first derivative that counts as none. */
const FLAT = 1e-12;

/**
 * Volts and currents with the given elements closed.
 *
 * Straight elements make a linear system. Elements with a curve are met by semi-smooth Newton steps on the co-content
 * (the sum of the areas under all curves), which is convex; each step goes exactly to the minimum along its line, found
 * by walking over the break points, so it cannot cycle. Method: Millar, "Some general theorems for non-linear systems
 * possessing resistance", Phil. Mag. 42 (1951) for the co-content (from memory).
 *
 * @param closed one byte an element: 1 conducts
 * @param start volts to start from, such as a neighbouring state's; those of nodes that are given stay
 * @throws if Kirchhoff's law is not met: a bug or a loom with values out of all proportion; names the node
 */
export function operate(network: Solvable, closed: Uint8Array, start?: Float64Array): OperatingPoint {
  const { circuit, pattern, factor, siemens, emf, pieces } = network;
  const { elements, nodes } = circuit;
  const { slope, step, across } = network.scratch;
  const volts = start === undefined ? new Float64Array(nodes.length) : Float64Array.from(start);
  const amps = new Float64Array(elements.length);
  let residual = Infinity;
  let worst = 0;
  let largest = 0;
  let iterations = 0;
  for (; iterations < MOST_ITERATIONS; iterations++) {
    step.fill(0);
    largest = 0;
    let curved = false;
    for (let e = 0; e < elements.length; e++) {
      if (closed[e] === 0) {
        amps[e] = 0;
        continue;
      }
      const el = elements[e] as (typeof elements)[number];
      const v = (volts[el.a] as number) - (volts[el.b] as number);
      across[e] = v;
      const list = pieces[e];
      if (list === undefined) {
        slope[e] = siemens[e] as number;
        amps[e] = (v - (emf[e] as number)) * (siemens[e] as number);
      } else {
        curved = true;
        const piece = pieceAt(list, v);
        slope[e] = piece.siemens;
        amps[e] = piece.amps0 + piece.siemens * v;
      }
      const i = amps[e] as number;
      largest = Math.max(largest, Math.abs(i));
      const [x, y] = [pattern.step[el.a] as number, pattern.step[el.b] as number];
      if (x >= 0) (step[x] as number) -= i;
      if (y >= 0) (step[y] as number) += i;
    }
    residual = 0;
    for (let k = 0; k < pattern.size; k++)
      if (Math.abs(step[k] as number) > residual) {
        residual = Math.abs(step[k] as number);
        worst = k;
      }
    if (residual <= Math.max(1e-3 * LAW_AMPS, LAW_SHARE * largest)) break;
    fill(network, closed, slope);
    factorize(pattern, factor);
    substitute(pattern, factor, step);
    const alpha =
      !curved || staysOnPieces(network, closed, across, step) ? 1 : lineMinimum(network, closed, across, step);
    for (let n = 0; n < nodes.length; n++)
      if ((pattern.step[n] as number) >= 0) (volts[n] as number) += alpha * (step[pattern.step[n] as number] as number);
    if (alpha === 0) break;
  }
  if (residual > Math.max(LAW_AMPS, LAW_SHARE * largest)) {
    const node = nodes[pattern.order[worst] as number];
    throw new Error(
      `Kirchhoff's law is not met at ${node}: ${residual.toPrecision(3)} A left over after ${iterations} steps`,
    );
  }
  return { volts, amps, residual, iterations };
}

function fill({ circuit, pattern, factor }: Solvable, closed: Uint8Array, slope: Float64Array): void {
  const { weight, excess } = factor;
  weight.fill(0);
  excess.fill(0);
  const { elements } = circuit;
  for (let e = 0; e < elements.length; e++) {
    if (closed[e] === 0) continue;
    const g = slope[e] as number;
    if (g === 0) continue;
    const slot = pattern.slotOf[e] as number;
    if (slot >= 0) {
      (weight[slot] as number) += g;
      continue;
    }
    const el = elements[e] as (typeof elements)[number];
    const [x, y] = [pattern.step[el.a] as number, pattern.step[el.b] as number];
    if (x >= 0 && y < 0) (excess[x] as number) += g;
    else if (y >= 0 && x < 0) (excess[y] as number) += g;
  }
}

/** The whole step leads over no break point: then it goes exactly to the minimum. Most last steps do. */
function staysOnPieces(network: Solvable, closed: Uint8Array, across: Float64Array, step: Float64Array): boolean {
  const { circuit, pattern, pieces } = network;
  for (let e = 0; e < pieces.length; e++) {
    const list = pieces[e];
    if (list === undefined || closed[e] === 0) continue;
    const el = circuit.elements[e] as (typeof circuit.elements)[number];
    const [x, y] = [pattern.step[el.a] as number, pattern.step[el.b] as number];
    const v = across[e] as number;
    const piece = pieceAt(list, v);
    const then = v + (x >= 0 ? (step[x] as number) : 0) - (y >= 0 ? (step[y] as number) : 0);
    if (then < piece.from || then > piece.to) return false;
  }
  return true;
}

/**
 * How far to go along the step: the zero of the derivative of the co-content, which rises piece by piece. Walks the
 * break points in order.
 */
function lineMinimum(network: Solvable, closed: Uint8Array, across: Float64Array, step: Float64Array): number {
  const { circuit, pattern, siemens, emf, pieces } = network;
  let atZero = 0;
  let rise = 0;
  const bends: { readonly alpha: number; readonly more: number }[] = [];
  for (let e = 0; e < circuit.elements.length; e++) {
    if (closed[e] === 0) continue;
    const el = circuit.elements[e] as (typeof circuit.elements)[number];
    const [x, y] = [pattern.step[el.a] as number, pattern.step[el.b] as number];
    const d = (x >= 0 ? (step[x] as number) : 0) - (y >= 0 ? (step[y] as number) : 0);
    if (d === 0) continue;
    const v = across[e] as number;
    const list = pieces[e];
    if (list === undefined) {
      atZero += d * (v - (emf[e] as number)) * (siemens[e] as number);
      rise += d * d * (siemens[e] as number);
      continue;
    }
    const here = directed(list, v, d);
    atZero += d * (here.amps0 + here.siemens * v);
    rise += d * d * here.siemens;
    let slope = here.siemens;
    for (let k = list.indexOf(here); d > 0 ? k + 1 < list.length : k > 0; k += d > 0 ? 1 : -1) {
      const bend = d > 0 ? (list[k] as Piece).to : (list[k] as Piece).from;
      const next = list[d > 0 ? k + 1 : k - 1] as Piece;
      bends.push({ alpha: (bend - v) / d, more: d * d * (next.siemens - slope) });
      slope = next.siemens;
    }
  }
  if (atZero >= 0) return 0;
  bends.sort((p, q) => p.alpha - q.alpha);
  let alpha = 0;
  let value = atZero;
  for (const bend of bends) {
    const at = value + rise * (bend.alpha - alpha);
    // Zero within rounding is the minimum; beyond it a flat stretch may lead anywhere.
    if (at >= FLAT * atZero) break;
    value = at;
    alpha = bend.alpha;
    rise += bend.more;
  }
  // No curvature left along the line: a full Newton step is as far as the model is known.
  return rise > 0 ? alpha - value / rise : Math.max(alpha, 1);
}

/** The piece that is entered when moving from `v` in the direction of `d`. */
function directed(pieces: readonly Piece[], v: number, d: number): Piece {
  if (d > 0) {
    for (const piece of pieces) if (v < piece.to) return piece;
    return pieces[pieces.length - 1] as Piece;
  }
  return pieceAt(pieces, v);
}
