import type { Columns } from "./columns.ts";
import { Estimate } from "./estimate.ts";
import type { Graph, GraphPin } from "./graph.ts";
import { type Item, pinAt } from "./moving.ts";
import { pinPitch } from "../symbols/module.ts";
import { random } from "./random.ts";
import type { Rows } from "./rows.ts";
import { apart } from "./stretch.ts";

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
const GAP = 2;

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

interface Move {
  readonly items: readonly Item[];
  readonly go: () => void;
  readonly back: () => void;
}

const shift = (items: readonly Item[], dx: number): Move | undefined =>
  dx === 0
    ? undefined
    : {
        items,
        go: () => {
          for (const i of items) i.x += dx;
        },
        back: () => {
          for (const i of items) i.x -= dx;
        },
      };

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

function mirror(item: Item): Move {
  const turn = () => {
    item.box.mirrored = !item.box.mirrored;
  };
  return { items: [item], go: turn, back: turn };
}

function swap(a: Item, b: Item | undefined): Move | undefined {
  if (b === undefined || a === b) return undefined;
  const [xa, xb] = [a.x, b.x];
  const middle = (i: Item) => i.x + i.box.w / 2;
  const [ma, mb] = [middle(a), middle(b)];
  return {
    items: [a, b],
    go: () => {
      a.x = Math.round(mb - a.box.w / 2);
      b.x = Math.round(ma - b.box.w / 2);
    },
    back: () => {
      [a.x, b.x] = [xa, xb];
    },
  };
}

function swapPins(item: Item, p: GraphPin | undefined, q: GraphPin | undefined): Move | undefined {
  if (p === undefined || q === undefined || p === q || p.side !== q.side) return undefined;
  const turn = () => {
    [p.x, q.x] = [q.x, p.x];
  };
  return { items: [item], go: turn, back: turn };
}

/** A pin along its edge; stretching gives it room there. */
function movePin(item: Item, pin: GraphPin | undefined, dx: number): Move | undefined {
  if (pin === undefined || pin.x + dx < 1 || pin.x + dx > item.box.w - 1) return undefined;
  const old = pin.x;
  return {
    items: [item],
    go: () => {
      pin.x = old + dx;
    },
    back: () => {
      pin.x = old;
    },
  };
}

const PIN_STEPS = [-1, 1, -2, 2, -4, 4, -7, 7, -11, 11];

/** Each pin of a box a little along its edge, not nearer to its neighbours than they may stand. */
function pinMoves(item: Item): readonly (Move | undefined)[] {
  const { pins } = item.box;
  const pitch = pinPitch(pins.map((p) => p.terminal));
  return pins.flatMap((pin) => {
    const beside = pins.filter((p) => p !== pin && p.side === pin.side);
    return PIN_STEPS.filter((dx) => beside.every((p) => isApart(p, pin, pin.x + dx, pitch))).map((dx) =>
      movePin(item, pin, dx),
    );
  });
}

const isApart = (p: GraphPin, moved: GraphPin, x: number, pitch: number): boolean =>
  p.x < x ? x - p.x >= apart(p, moved, pitch) : p.x - x >= apart(moved, p, pitch);

/** Parts that stand exactly over or under each other on straight wires: they move as one. */
function chainOf(estimate: Estimate, item: Item): readonly Item[] {
  const chain = [item];
  for (let k = 0; k < chain.length && chain.length < 7; k++) {
    const here = chain[k] as Item;
    for (const n of here.nets) {
      const net = estimate.nets[n];
      const [a, b] = net?.ends ?? [];
      if (net === undefined || net.barY !== undefined || a === undefined || b === undefined) continue;
      const other = a.item === here ? b : a;
      if (other.item.box.stretches || chain.includes(other.item)) continue;
      if (pinAt(a.item, a.pin) === pinAt(b.item, b.pin)) chain.push(other.item);
    }
  }
  return chain;
}

/** Where an item wishes to stand, less its distance from the first of its block. */
interface Wish {
  readonly at: number;
  readonly weight: number;
}

/** Half of the weight wishes to stand further left, half further right. */
function medianOf(wishes: readonly Wish[]): number {
  const order = wishes.toSorted((p, q) => p.at - q.at);
  let left = order.reduce((sum, w) => sum + w.weight, 0) / 2;
  for (const w of order) {
    left -= w.weight;
    if (left <= 0) return w.at;
  }
  return order.at(-1)?.at ?? 0;
}

/**
 * Rows without overlaps, the order of middles kept. What collides moves as a block to where most of its wires end
 * straight: a part gives way to a box, not the other way round.
 */
function pushApart(estimate: Estimate): void {
  for (const row of estimate.rows) {
    const order = row.toSorted((a, b) => a.x + a.box.w / 2 - b.x - b.box.w / 2 || (a.box.id < b.box.id ? -1 : 1));
    const blocks: { readonly items: Item[]; readonly wishes: Wish[]; length: number; x: number }[] = [];
    for (const item of order) {
      blocks.push({ items: [item], wishes: [{ at: item.x, weight: 1 + item.nets.length }], length: 0, x: item.x });
      for (let q = blocks.at(-1), p = blocks.at(-2); p !== undefined && q !== undefined; q = p, p = blocks.at(-2)) {
        const [last, first] = [p.items.at(-1) as Item, q.items[0] as Item];
        const by = p.length + Math.ceil(last.box.w + last.box.right + GAP + first.box.left);
        if (p.x + by <= q.x) break;
        p.items.push(...q.items);
        p.wishes.push(...q.wishes.map((w) => ({ ...w, at: w.at - by })));
        p.length = by + q.length;
        p.x = Math.round(medianOf(p.wishes));
        blocks.pop();
      }
    }
    for (const { items, x } of blocks) {
      let at = x;
      items.forEach((item, i) => {
        const before = items[i - 1];
        if (before !== undefined) at += Math.ceil(before.box.w + before.box.right + GAP + item.box.left);
        item.x = at;
      });
    }
  }
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
      for (const dx of mayReorder || !item.box.stretches ? [-1, 1, -3, 3] : []) tries.push(shift([item], dx), shift(chainOf(estimate, item), dx));
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
