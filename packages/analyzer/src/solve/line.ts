import type { Piece } from "../circuit/curve.ts";
import type { Scratch, Solvable } from "./network.ts";

// How far to go along a step of all volts.

/** Share of the first derivative that counts as none. */
const FLAT = 1e-12;

/** Number of the piece that these volts lie on, looked for from the one of the last time. */
export function pieceNear(pieces: readonly Piece[], volts: number, near: number): number {
  let k = near;
  while (k > 0 && volts <= (pieces[k - 1] as Piece).to) k--;
  while (k + 1 < pieces.length && volts > (pieces[k] as Piece).to) k++;
  return k;
}

/** What the volts over an element rise by along the whole step. */
const riseOf = ({ x, y, scratch: { step } }: Solvable, e: number): number => {
  const at = x[e] as number;
  const to = y[e] as number;
  return (at >= 0 ? (step[at] as number) : 0) - (to >= 0 ? (step[to] as number) : 0);
};

/** The whole step leads over no break point: then it goes exactly to the minimum. Most last steps do. */
export function staysOnPieces(network: Solvable, closed: Uint8Array): boolean {
  const { curved, scratch } = network;
  const { pieces } = network.values;
  for (const e of curved) {
    if (closed[e] === 0) continue;
    const piece = (pieces[e] as readonly Piece[])[scratch.piece[e] as number] as Piece;
    const then = (scratch.across[e] as number) + riseOf(network, e);
    if (then < piece.from || then > piece.to) return false;
  }
  return true;
}

/**
 * How far to go along the step: the zero of the derivative of the co-content, which rises piece by piece. Walks the
 * break points in order.
 */
export function lineMinimum(network: Solvable, closed: Uint8Array, amps: Float64Array): number {
  const { curved, a, scratch } = network;
  const { pieces } = network.values;
  const { across, piece, slope, bend, bending } = scratch;
  let atZero = 0;
  let rise = 0;
  for (let e = 0; e < a.length; e++) {
    if (closed[e] === 0) continue;
    const d = riseOf(network, e);
    atZero += d * (amps[e] as number);
    rise += d * d * (slope[e] as number);
  }
  let bends = 0;
  for (const e of curved) {
    if (closed[e] === 0) continue;
    const d = riseOf(network, e);
    if (d === 0) continue;
    const list = pieces[e] as readonly Piece[];
    const v = across[e] as number;
    const k = enteredFrom(list, v, d, piece[e] as number);
    rise += d * d * ((list[k] as Piece).siemens - (slope[e] as number));
    piece[e] = k;
    bend[e] = bendOf(list, k, v, d);
    if (bend[e] !== Infinity) bending[bends++] = e;
  }
  if (atZero >= 0) return 0;
  let alpha = 0;
  let value = atZero;
  for (let e = nextBend(scratch, bends); e >= 0; e = nextBend(scratch, bends)) {
    const next = bend[e] as number;
    const at = value + rise * (next - alpha);
    // Zero within rounding is the minimum; beyond it a flat stretch may lead anywhere.
    if (at >= FLAT * atZero) break;
    value = at;
    alpha = next;
    rise += passBend(network, e);
  }
  // No curvature left along the line: a full Newton step is as far as the model is known.
  return rise > 0 ? alpha - value / rise : Math.max(alpha, 1);
}

/** Number of the piece that is entered when moving from `v` in the direction of `d`. */
function enteredFrom(list: readonly Piece[], v: number, d: number, here: number): number {
  if (d < 0) return here;
  let k = here;
  while (k + 1 < list.length && v >= (list[k] as Piece).to) k++;
  return k;
}

const bendOf = (list: readonly Piece[], k: number, v: number, d: number): number =>
  (d > 0 ? k + 1 < list.length : k > 0)
    ? ((d > 0 ? (list[k] as Piece).to : (list[k] as Piece).from) - v) / d
    : Infinity;

/** The element whose curve bends next, of the first so many that bend at all; -1 if none does. */
function nextBend({ bend, bending }: Scratch, bends: number): number {
  let soonest = -1;
  let least = Infinity;
  for (let i = 0; i < bends; i++) {
    const e = bending[i] as number;
    if ((bend[e] as number) >= least) continue;
    soonest = e;
    least = bend[e] as number;
  }
  return soonest;
}

/** Goes over the next bend of a curve; what that adds to the second derivative. */
function passBend(network: Solvable, e: number): number {
  const { piece, across, bend } = network.scratch;
  const list = network.values.pieces[e] as readonly Piece[];
  const d = riseOf(network, e);
  const k = piece[e] as number;
  const to = d > 0 ? k + 1 : k - 1;
  piece[e] = to;
  bend[e] = bendOf(list, to, across[e] as number, d);
  return d * d * ((list[to] as Piece).siemens - (list[k] as Piece).siemens);
}
