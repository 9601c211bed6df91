import type { Piece } from "../circuit/curve.ts";
import { factorize, substitute } from "./factor.ts";
import { lineMinimum, pieceNear, staysOnPieces } from "./line.ts";
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
  const { circuit, pattern, factor, values, curved, a, b, x, y } = network;
  const { siemens, emf, pieces } = values;

  const { slope, step, across, piece } = network.scratch;
  // One piece of memory for both: to ask for it is a tenth of the work on a middling loom.
  const nodes = pattern.step.length;
  const room = new ArrayBuffer(8 * (nodes + a.length));
  const volts = new Float64Array(room, 0, nodes);
  const amps = new Float64Array(room, 8 * nodes);
  if (start !== undefined) volts.set(start);
  slope.set(siemens);
  const isCurved = curved.some((e) => closed[e] === 1);
  let residual = Infinity;
  let worst = 0;
  let largest = 0;
  let iterations = 0;
  for (; iterations < MOST_ITERATIONS; iterations++) {
    step.fill(0);
    largest = 0;
    for (const e of curved) {
      if (closed[e] === 0) continue;
      const v = (volts[a[e] as number] as number) - (volts[b[e] as number] as number);
      const list = pieces[e] as readonly Piece[];
      const k = pieceNear(list, v, piece[e] as number);
      const here = list[k] as Piece;
      across[e] = v;
      piece[e] = k;
      slope[e] = here.siemens;
      amps[e] = here.amps0 + here.siemens * v;
    }
    for (let e = 0; e < amps.length; e++) {
      if (closed[e] === 0) continue;
      const g = siemens[e] as number;
      // A curve has none of its own; its current stands already.
      if (g !== 0)
        amps[e] = ((volts[a[e] as number] as number) - (volts[b[e] as number] as number) - (emf[e] as number)) * g;
      const i = amps[e] as number;
      const size = Math.abs(i);
      if (size > largest) largest = size;
      const from = x[e] as number;
      const to = y[e] as number;
      if (from >= 0) (step[from] as number) -= i;
      if (to >= 0) (step[to] as number) += i;
    }
    residual = 0;
    for (let k = 0; k < pattern.size; k++)
      if (Math.abs(step[k] as number) > residual) {
        residual = Math.abs(step[k] as number);
        worst = k;
      }
    if (residual <= Math.max(1e-3 * LAW_AMPS, LAW_SHARE * largest)) break;
    fill(network, closed);
    factorize(pattern, factor);
    substitute(pattern, factor, step);
    const alpha = !isCurved || staysOnPieces(network, closed) ? 1 : lineMinimum(network, closed, amps);
    for (let k = 0; k < pattern.size; k++) (volts[pattern.order[k] as number] as number) += alpha * (step[k] as number);
    if (alpha === 0) break;
  }
  if (residual > Math.max(LAW_AMPS, LAW_SHARE * largest)) {
    const node = circuit.nodes[pattern.order[worst] as number];
    throw new Error(
      `Kirchhoff's law is not met at ${node}: ${residual.toPrecision(3)} A left over after ${iterations} steps`,
    );
  }
  return { volts, amps, residual, iterations };
}

function fill({ pattern, factor, x, y, scratch: { slope } }: Solvable, closed: Uint8Array): void {
  const { weight, excess } = factor;
  const { slotOf } = pattern;
  weight.fill(0);
  excess.fill(0);
  for (let e = 0; e < x.length; e++) {
    if (closed[e] === 0) continue;
    const g = slope[e] as number;
    const slot = slotOf[e] as number;
    if (slot >= 0) {
      (weight[slot] as number) += g;
      continue;
    }
    const from = x[e] as number;
    const to = y[e] as number;
    if (from >= 0 && to < 0) (excess[from] as number) += g;
    else if (to >= 0 && from < 0) (excess[to] as number) += g;
  }
}
