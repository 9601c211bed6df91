import type { Straight } from "@loomproof/analyzer/testing";

/** Equations of the nodes that something ties to the reference: conductances, row by row, and amps into each node. */
export interface Equations {
  readonly size: number;
  readonly matrix: Float64Array;
  readonly amps: Float64Array;
}

/** Where each node stands in the equations; -1 for the reference and for what nothing ties to it. */
export function placesOf(nodes: number, reference: number, branches: readonly Straight[]): Int32Array {
  const near: number[][] = Array.from({ length: nodes }, () => []);
  for (const { a, b, siemens } of branches)
    if (siemens > 0) {
      near[a]?.push(b);
      near[b]?.push(a);
    }
  const places = new Int32Array(nodes).fill(-1);
  const been = new Set([reference]);
  let count = 0;
  for (const n of been)
    for (const m of near[n] ?? [])
      if (!been.has(m)) {
        been.add(m);
        places[m] = count++;
      }
  return places;
}

export function equationsOf(places: Int32Array, branches: readonly Straight[]): Equations {
  let size = 0;
  for (const p of places) if (p >= size) size = p + 1;
  const matrix = new Float64Array(size * size);
  const amps = new Float64Array(size);
  for (const { a, b, siemens, amps0 } of branches) {
    const i = places[a] as number;
    const j = places[b] as number;
    if (i >= 0) {
      (matrix[i * size + i] as number) += siemens;
      (amps[i] as number) -= amps0;
    }
    if (j >= 0) {
      (matrix[j * size + j] as number) += siemens;
      (amps[j] as number) += amps0;
    }
    if (i >= 0 && j >= 0) {
      (matrix[i * size + j] as number) -= siemens;
      (matrix[j * size + i] as number) -= siemens;
    }
  }
  return { size, matrix, amps };
}

/** The yardstick: dense LDL' without pivoting, as one would write it by hand. Both are overwritten; volts are left in `amps`. */
export function solveDense({ size, matrix, amps }: Equations): Float64Array {
  for (let k = 0; k < size; k++) {
    const pivot = matrix[k * size + k] as number;
    for (let i = k + 1; i < size; i++) {
      const share = (matrix[i * size + k] as number) / pivot;
      if (share === 0) continue;
      for (let j = k + 1; j <= i; j++) (matrix[i * size + j] as number) -= share * (matrix[j * size + k] as number);
      (amps[i] as number) -= share * (amps[k] as number);
    }
    // The column below the pivot is kept undivided until all rows have been served.
    for (let i = k + 1; i < size; i++) (matrix[i * size + k] as number) /= pivot;
    (amps[k] as number) /= pivot;
  }
  for (let k = size - 1; k >= 0; k--)
    for (let i = k + 1; i < size; i++) (amps[k] as number) -= (matrix[i * size + k] as number) * (amps[i] as number);
  return amps;
}
