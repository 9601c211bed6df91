import type { Columns } from "./columns.ts";
import { Estimate } from "./estimate.ts";
import type { Graph } from "./graph.ts";
import { chainOf, type Move, mirror, movePin, pinMoves, shift, swap, swapPins } from "./moves.ts";
import { type Item, pinAt } from "./moving.ts";
import { pushApart } from "./push-apart.ts";
import { random } from "./random.ts";
import type { Rows } from "./rows.ts";

export interface AnnealOptions {
  readonly seed: number;
  readonly moves: number;
  readonly heat: number;
  /** Whether each part is set straight in the end: worth its time once, at the last. */
  readonly straight: boolean;
}

const STAGES = 100;
/** Heat falls to 0.004 of itself over all stages. */
const COOLING = 0.946;

/**
 * Columns by simulated annealing on the estimate: rows stay, everything else moves. Parts may be mirrored, pins of boxes
 * change places. What still overlaps in the end is pushed apart, and each part is set straight where that costs nothing.
 */
export function anneal(graph: Graph, rows: Rows, start: Columns, options: AnnealOptions): Columns {
  const estimate = startingAt(graph, rows, start);
  estimate.drawAll();
  heat(estimate, options);
  pushApart(estimate);
  if (options.straight) {
    estimate.drawAll();
    setStraight(estimate, true);
  }
  return estimate.columns();
}

/** Columns without overlaps, each part as straight as its neighbours leave it, the order kept. */
export function settled(graph: Graph, rows: Rows, start: Columns): Columns {
  const estimate = startingAt(graph, rows, start);
  pushApart(estimate);
  estimate.drawAll();
  setStraight(estimate, false);
  pushApart(estimate);
  return estimate.columns();
}

function startingAt(graph: Graph, rows: Rows, start: Columns): Estimate {
  const estimate = new Estimate(graph, rows);
  for (const item of estimate.items) item.x = start.get(item.box.id) ?? 0;
  return estimate;
}

function heat(estimate: Estimate, { seed, moves, heat: first }: AnnealOptions): void {
  const rnd = random(seed);
  const { items } = estimate;
  if (items.length === 0) return;
  let t = first;
  for (let k = 0; k < moves; k++) {
    if (k % Math.ceil(moves / STAGES) === 0 && k > 0) t *= COOLING;
    const move = propose(estimate, items[Math.floor(rnd() * items.length)] as Item, rnd);
    if (move === undefined) continue;
    const most = estimate.costOf(move.items) + t * worseBy(rnd());
    move.go();
    estimate.draw(move.items);
    if (estimate.costOf(move.items, most) <= most) continue;
    move.back();
    estimate.draw(move.items);
  }
}

/** By how much worse a move may be at heat 1 that a random number lets through: e^(−x) by its first terms, turned round. */
function worseBy(chance: number): number {
  let [low, high] = [0, MOST_WORSE];
  for (let k = 0; k < HALVINGS; k++) {
    const x = (low + high) / 2;
    if (chance * (1 + x + (x * x) / 2 + (x * x * x) / 6) < 1) low = x;
    else high = x;
  }
  return low;
}
const MOST_WORSE = 64;
const HALVINGS = 16;

function propose(estimate: Estimate, item: Item, rnd: () => number): Move | undefined {
  const what = rnd();
  const pick = <T>(list: readonly T[]): T | undefined => list[Math.floor(rnd() * list.length)];
  const jump = (wide: number) => Math.round((rnd() - 0.5) * wide);
  if (what < 0.42) {
    const net = estimate.nets[pick(item.nets) ?? -1];
    const own = net?.ends.find((e) => e.item === item);
    const other = pick(net?.ends ?? []);
    if (own === undefined || other === undefined || other.item === item) return undefined;
    return shift([item], pinAt(other.item, other.pin) - pinAt(item, own.pin));
  }
  if (what < 0.57) return shift([item], jump(24));
  if (what < 0.71) return shift(chainOf(estimate, item), jump(40));
  if (what < 0.85) return swap(item, pick(estimate.rows[item.row] ?? []));
  if (what < 0.92 && item.box.mirrors) return mirror(item);
  if (item.box.stretches)
    return what < 0.96
      ? swapPins(item, pick(item.box.pins), pick(item.box.pins))
      : movePin(item, pick(item.box.pins), jump(item.box.w));
  return shift([item], jump(6));
}

const ROUNDS = 4;

/** Each part, alone and with what stands straight on it, to wherever the estimate is cheapest. */
function setStraight(estimate: Estimate, mayReorder: boolean): void {
  for (let round = 0; round < ROUNDS; round++) {
    let better = false;
    for (const item of estimate.items) {
      const tries: (Move | undefined)[] = [];
      for (const n of mayReorder || !item.box.stretches ? item.nets : []) {
        // A wire to a bar is straight wherever its part stands.
        const net = estimate.nets[n];
        const [a, b] = net?.ends ?? [];
        if (net?.barY !== undefined || a === undefined || b === undefined) continue;
        const dx = pinAt(a.item, a.pin) - pinAt(b.item, b.pin);
        const by = a.item === item ? -dx : dx;
        tries.push(shift([item], by), shift(chainOf(estimate, item), by));
      }
      if (item.box.stretches) tries.push(...pinMoves(item));
      for (const dx of mayReorder || !item.box.stretches ? [-1, 1, -3, 3] : [])
        tries.push(shift([item], dx), shift(chainOf(estimate, item), dx));
      if (mayReorder && item.box.mirrors) tries.push(mirror(item));
      if (mayReorder && round > 0 && !item.box.stretches)
        for (const other of estimate.rows[item.row] ?? []) tries.push(swap(item, other));
      for (const move of tries) {
        if (move === undefined) continue;
        const before = estimate.costOf(move.items);
        move.go();
        estimate.draw(move.items);
        if (estimate.costOf(move.items, before) < before - 1e-6) {
          better = true;
          continue;
        }
        move.back();
        estimate.draw(move.items);
      }
    }
    if (!better) return;
  }
}
