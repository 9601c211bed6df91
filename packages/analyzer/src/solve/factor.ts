// The nodal matrix of a circuit of conductances is a weighted graph Laplacian plus what ties nodes to the reference.
// It is factored without a single subtraction: beside the weights between nodes we carry the "excess" of each row (its
// tie to the reference) instead of the diagonal. Eliminating node k gives its neighbours new weights and new excess,
// all sums of positive products, so that every entry keeps its full relative accuracy even where milliohms meet
// megohms, and a part that hangs on nothing is seen exactly (its last node has neither excess nor neighbour).
// Method: Grassmann, Taksar and Heyman, "Regenerative analysis and steady state distributions for Markov chains",
// Operations Research 33 (1985), used here for the symmetric case (from memory).

/** Where everything stands: order of elimination and the fill. Made once a circuit. */
export interface Pattern {
  readonly size: number;
  /** Node eliminated at each step. */
  readonly order: Int32Array;
  /** Step at which each node is eliminated; -1 for nodes of given volts. */
  readonly step: Int32Array;
  /** Neighbours of step k still alive: steps `neighbour[start[k]..start[k+1])`, slots of the same index. */
  readonly start: Int32Array;
  readonly neighbour: Int32Array;
  /** For each step, for each pair of its neighbours in order, the slot that their new weight goes to. */
  readonly pairSlot: Int32Array;
  readonly pairStart: Int32Array;
  /** Slot of each element, or -1 if an end is the reference. */
  readonly slotOf: Int32Array;
}

/**
 * Minimum-degree order over all elements, closed or not: the fill holds for every state.
 *
 * @param fixed one byte a node: 1 where the volts are given (the reference, or the rim of an island)
 */
export function patternOf(nodes: number, fixed: Uint8Array, ends: readonly (readonly [number, number])[]): Pattern {
  const around: Set<number>[] = Array.from({ length: nodes }, () => new Set());
  for (const [a, b] of ends) {
    if (a === b || fixed[a] === 1 || fixed[b] === 1) continue;
    around[a]?.add(b);
    around[b]?.add(a);
  }
  const alive = new Set<number>(Array.from({ length: nodes }, (_, n) => n).filter((n) => fixed[n] !== 1));
  const size = alive.size;
  const order = new Int32Array(size);
  const step = new Int32Array(nodes).fill(-1);
  const neighboursOf: number[][] = [];
  const byDegree = new DegreeQueue(around, alive);
  for (let k = 0; k < size; k++) {
    const node = byDegree.take();
    order[k] = node;
    step[node] = k;
    const near = [...(around[node] ?? [])].sort((x, y) => x - y);
    neighboursOf.push(near);
    for (const x of near) {
      around[x]?.delete(node);
      for (const y of near) if (x !== y) around[x]?.add(y);
    }
    for (const x of near) byDegree.touch(x);
  }
  return layOut(nodes, order, step, neighboursOf, ends);
}

/** Picks the live node with the fewest neighbours, the lowest index first among equals. */
class DegreeQueue {
  readonly #around: readonly Set<number>[];
  readonly #buckets: Set<number>[] = [];
  readonly #degree: Int32Array;

  constructor(around: readonly Set<number>[], alive: ReadonlySet<number>) {
    this.#around = around;
    this.#degree = new Int32Array(around.length).fill(-1);
    for (const n of alive) this.touch(n);
  }

  touch(node: number): void {
    const degree = this.#around[node]?.size ?? 0;
    const before = this.#degree[node] ?? -1;
    if (before === degree) return;
    if (before >= 0) this.#buckets[before]?.delete(node);
    while (this.#buckets.length <= degree) this.#buckets.push(new Set());
    this.#buckets[degree]?.add(node);
    this.#degree[node] = degree;
  }

  take(): number {
    const bucket = this.#buckets.find((b) => b.size > 0);
    if (bucket === undefined) throw new Error("factor: no node left to eliminate");
    let node = Infinity;
    for (const n of bucket) if (n < node) node = n;
    bucket.delete(node);
    this.#degree[node] = -1;
    return node;
  }
}

function layOut(
  nodes: number,
  order: Int32Array,
  step: Int32Array,
  neighboursOf: readonly (readonly number[])[],
  ends: readonly (readonly [number, number])[],
): Pattern {
  const size = order.length;
  const start = new Int32Array(size + 1);
  const flat: number[] = [];
  const slots = new Map<number, number>();
  const key = (lower: number, higher: number) => lower * nodes + higher;
  for (let k = 0; k < size; k++) {
    start[k] = flat.length;
    const near = (neighboursOf[k] ?? []).map((n) => step[n] ?? -1).sort((x, y) => x - y);
    for (const s of near) slots.set(key(k, s), flat.push(s) - 1);
  }
  start[size] = flat.length;
  const pairs: number[] = [];
  const pairStart = new Int32Array(size + 1);
  for (let k = 0; k < size; k++) {
    pairStart[k] = pairs.length;
    for (let i = start[k] ?? 0; i < (start[k + 1] ?? 0); i++)
      for (let j = i + 1; j < (start[k + 1] ?? 0); j++) pairs.push(slots.get(key(flat[i] ?? 0, flat[j] ?? 0)) ?? -1);
  }
  pairStart[size] = pairs.length;
  const slotOf = Int32Array.from(ends, ([a, b]) => {
    const [x, y] = [step[a] ?? -1, step[b] ?? -1];
    if (x < 0 || y < 0 || x === y) return -1;
    return slots.get(key(Math.min(x, y), Math.max(x, y))) ?? -1;
  });
  return {
    size,
    order,
    step,
    start,
    neighbour: Int32Array.from(flat),
    pairSlot: Int32Array.from(pairs),
    pairStart,
    slotOf,
  };
}

/** Numbers of one factoring: reused from solve to solve. */
export interface Factor {
  /** Weights between nodes; after factoring, weight ÷ pivot. */
  readonly weight: Float64Array;
  /** Tie of each step to the reference. */
  readonly excess: Float64Array;
  readonly pivot: Float64Array;
}

export const emptyFactor = (pattern: Pattern): Factor => ({
  weight: new Float64Array(pattern.neighbour.length),
  excess: new Float64Array(pattern.size),
  pivot: new Float64Array(pattern.size),
});

/** Factors in place. A pivot of exactly 0 marks the last node of a part that nothing ties to the reference. */
export function factorize(pattern: Pattern, factor: Factor): void {
  const { size, start, neighbour, pairSlot, pairStart } = pattern;
  const { weight, excess, pivot } = factor;
  for (let k = 0; k < size; k++) {
    const from = start[k] as number;
    const to = start[k + 1] as number;
    const own = excess[k] as number;
    let d = own;
    for (let i = from; i < to; i++) d += weight[i] as number;
    pivot[k] = d;
    if (d === 0) continue;
    let pair = pairStart[k] as number;
    for (let i = from; i < to; i++) {
      const share = (weight[i] as number) / d;
      weight[i] = share;
      const node = neighbour[i] as number;
      if (share === 0) {
        pair += to - i - 1;
        continue;
      }
      (excess[node] as number) += share * own;
      for (let j = i + 1; j < to; j++, pair++)
        (weight[pairSlot[pair] as number] as number) += share * (weight[j] as number);
    }
  }
}

/** Current into a part tied to nothing above which it is moved, A. */
const LOST_AMPS = 1e-10;
/** How far such a part is sent to look for a tie, V: well beyond any supply of a vehicle. */
const FAR_VOLTS = 200;

/**
 * Solves for the injected amps in `x` (by step), in place: volts over the reference. Parts tied to nothing stay where
 * they are, unless a current flows into one all the same (a constant draw whose ground is lost): then only such parts
 * are moved, each as a whole, far enough to meet whatever ends that current.
 */
export function substitute(pattern: Pattern, factor: Factor, x: Float64Array): void {
  const { size, start, neighbour } = pattern;
  const { weight, pivot } = factor;
  let isLost = false;
  for (let k = 0; k < size; k++) {
    const b = x[k] as number;
    if (b === 0) continue;
    if (pivot[k] === 0) isLost ||= Math.abs(b) > LOST_AMPS;
    else
      for (let i = start[k] as number; i < (start[k + 1] as number); i++)
        (x[neighbour[i] as number] as number) += (weight[i] as number) * b;
  }
  for (let k = size - 1; k >= 0; k--) {
    const d = pivot[k] as number;
    const b = x[k] as number;
    if (d === 0) {
      x[k] = isLost && Math.abs(b) > LOST_AMPS ? Math.sign(b) * FAR_VOLTS : 0;
      continue;
    }
    let v = isLost ? 0 : b / d;
    for (let i = start[k] as number; i < (start[k + 1] as number); i++)
      v += (weight[i] as number) * (x[neighbour[i] as number] as number);
    x[k] = v;
  }
}
