import type { Grid } from "./grid.ts";
import { scattered } from "./scatter.ts";
import { MAYBE, NO, YES } from "./scope.ts";

/**
 * What is closed or may be, without the trunk: islands. An element between two trunk nodes is an island of one. Thousands
 * of these are kept, and a piece of memory of its own costs more than what is in it: so all stands in one list. It begins
 * with `HEAD` numbers an island: where its elements begin, where its rim begins, whether something in it may or may not
 * conduct, and its sum; and once more for where the last ones end. Then come the elements, then the rims.
 */
export interface Hanging {
  readonly count: number;
  readonly list: Int32Array;
  /** By element, which island it is in; -1 for the trunk itself. */
  readonly islandOf: Int32Array;
}

const HEAD = 4;
const ELEMENTS = 0;
const RIM = 1;
const OPEN = 2;
const SUM = 3;

/** Where the elements of island `k` begin in the list, and where its rim does. They end where those of the next begin. */
export const elementsFrom = ({ list }: Hanging, k: number): number => list[HEAD * k + ELEMENTS] as number;
export const rimFrom = ({ list }: Hanging, k: number): number => list[HEAD * k + RIM] as number;

/** Whether something in island `k` may or may not conduct. */
export const isOpen = ({ list }: Hanging, k: number): boolean => list[HEAD * k + OPEN] === 1;

/** The same for islands of the same elements, each conducting as surely, on the same trunk nodes; seldom for others. */
export const sumOf = ({ list }: Hanging, k: number): number => list[HEAD * k + SUM] as number;

/** Elements of island `k`, ascending. */
export const elementsOf = (hanging: Hanging, k: number): Int32Array =>
  hanging.list.subarray(elementsFrom(hanging, k), elementsFrom(hanging, k + 1));

/** Trunk nodes that island `k` hangs on. */
export const rimOf = (hanging: Hanging, k: number): Int32Array =>
  hanging.list.subarray(rimFrom(hanging, k), rimFrom(hanging, k + 1));

/** What a look for islands writes on and nobody keeps: by node, by rim, by island. */
export interface HangingScratch {
  readonly been: Uint8Array;
  readonly rim: Int32Array;
  readonly heads: Int32Array;
  readonly next: Int32Array;
}

export const hangingScratch = (nodes: number, elements: number): HangingScratch => ({
  been: new Uint8Array(nodes),
  rim: new Int32Array(2 * elements),
  heads: new Int32Array(HEAD * (elements + 1)),
  next: new Int32Array(elements + 1),
});

/** @param closed three-valued, one byte an element */
export function hangingOn(grid: Grid, closed: Uint8Array, isTrunk: Uint8Array): Hanging {
  const { a, b, offsets, incident, isJoint, isPole, scratch } = grid;
  const islandOf = new Int32Array(grid.elements).fill(-1);
  const been = scratch.been.fill(0);
  const { rim, heads } = scratch;
  const open: number[] = [];
  let count = 0;
  let rims = 0;
  let taken = 0;
  let sum = 0;
  let mayBe = 0;
  const take = (i: number) => {
    islandOf[i] = count;
    taken++;
    if (closed[i] === MAYBE) mayBe = 1;
    sum += scattered((i << 2) | (closed[i] as number));
    for (let end = 0; end < 2; end++) {
      const n = (end === 0 ? a : b)[i] as number;
      if (isTrunk[n] === 0) open.push(n);
      else if (!isAmong(rim, n, heads[HEAD * count + RIM] as number, rims)) {
        rim[rims++] = n;
        sum += scattered(~n);
      }
    }
  };
  for (let first = 0; first < grid.elements; first++) {
    if (islandOf[first] !== -1 || closed[first] === NO || isPole[first] === 1) continue;
    const isBetween = isTrunk[a[first] as number] === 1 && isTrunk[b[first] as number] === 1;
    if (isBetween && closed[first] === YES && isJoint[first] === 1) continue;
    heads[HEAD * count + ELEMENTS] = taken;
    heads[HEAD * count + RIM] = rims;
    sum = 0;
    mayBe = 0;
    take(first);
    for (let n = open.pop(); n !== undefined; n = open.pop()) {
      if (been[n] === 1) continue;
      been[n] = 1;
      for (let at = offsets[n] as number; at < (offsets[n + 1] as number); at++) {
        const i = incident[at] as number;
        if (islandOf[i] === -1 && closed[i] !== NO) take(i);
      }
    }
    heads[HEAD * count + OPEN] = mayBe;
    heads[HEAD * count + SUM] = sum | 0;
    count++;
  }
  heads[HEAD * count + ELEMENTS] = taken;
  heads[HEAD * count + RIM] = rims;
  return { count, list: listed(grid, islandOf, count), islandOf };
}

function isAmong(list: Int32Array, n: number, from: number, to: number): boolean {
  for (let k = from; k < to; k++) if (list[k] === n) return true;
  return false;
}

/** The heads, of which places were counted from nothing, then every element and every rim in its place. */
function listed({ scratch: { heads, rim, next } }: Grid, islandOf: Int32Array, count: number): Int32Array {
  const begin = HEAD * (count + 1);
  const taken = heads[HEAD * count + ELEMENTS] as number;
  const rims = heads[HEAD * count + RIM] as number;
  const list = new Int32Array(begin + taken + rims);
  for (let k = 0; k <= count; k++) {
    const at = HEAD * k;
    next[k] = begin + (heads[at + ELEMENTS] as number);
    list[at + ELEMENTS] = next[k] as number;
    list[at + RIM] = begin + taken + (heads[at + RIM] as number);
    list[at + OPEN] = heads[at + OPEN] as number;
    list[at + SUM] = heads[at + SUM] as number;
  }
  for (let i = 0; i < islandOf.length; i++) {
    const k = islandOf[i] as number;
    if (k >= 0) list[(next[k] as number)++] = i;
  }
  for (let k = 0; k < rims; k++) list[begin + taken + k] = rim[k] as number;
  return list;
}
