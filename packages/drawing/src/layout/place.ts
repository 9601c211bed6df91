import { anneal, settled } from "./anneal.ts";
import type { Columns } from "./columns.ts";
import { Estimate } from "./estimate.ts";
import type { Graph } from "./graph.ts";
import { type Item, pinAt, rightOf } from "./moving.ts";
import { naturalColumns } from "./natural.ts";
import type { Rows } from "./rows.ts";
import { stretch } from "./stretch.ts";

const GAP = 2;
const SWEEPS = 6;
const SETTLINGS = 3;

export interface PlaceOptions {
  readonly seed: number;
  readonly heat: number;
}

const annealed = (graph: Graph, rows: Rows, start: Columns, share: number, options: PlaceOptions, straight = false) => {
  const moves = Math.round(share * Math.max(2000, Math.min(12000, 150 * graph.boxes.size)));
  const columns = anneal(graph, rows, start, { ...options, moves, straight });
  stretch(graph, columns);
  return columns;
};

/** Columns from nothing: a first order, then annealing with every box pulled wide over what it serves. */
export const rough = (graph: Graph, rows: Rows, options: PlaceOptions): Columns =>
  annealed(graph, rows, firstOrder(graph, rows), 1, options);

/** Annealing goes on, cooler each time, and what is alike comes into order. */
export function refined(graph: Graph, rows: Rows, start: Columns, seed: number): Columns {
  let columns = annealed(graph, rows, start, 0.4, { seed: seed + 100, heat: 6 });
  columns = annealed(graph, rows, columns, 0.3, { seed: seed + 200, heat: 3 });
  columns = annealed(graph, rows, columns, 0.1, { seed: seed + 300, heat: 0.5 }, true);
  naturalColumns(graph, rows, columns);
  for (let round = 0; round < SETTLINGS; round++) {
    stretch(graph, columns);
    columns = settled(graph, rows, columns);
  }
  return columns;
}

/** What a placing would cost by the estimate: the less, the better its drawing, most of the time. */
export function estimated(graph: Graph, rows: Rows, columns: Columns): number {
  const estimate = new Estimate(graph, rows);
  for (const item of estimate.items) item.x = columns.get(item.box.id) ?? 0;
  estimate.drawAll();
  return estimate.costOf(estimate.items);
}

/** Each box under the middle of what it is wired to, from the top row down and back. */
function firstOrder(graph: Graph, rows: Rows): Columns {
  const estimate = new Estimate(graph, rows);
  const pack = (row: readonly Item[], wish: (i: Item) => number) => {
    const order = row
      .map((item) => ({ item, at: wish(item) }))
      .sort((p, q) => p.at - q.at || (p.item.box.id < q.item.box.id ? -1 : 1));
    let edge = Number.NEGATIVE_INFINITY;
    for (const { item, at } of order) {
      item.x = Math.round(Math.max(at, edge + item.box.left));
      edge = rightOf(item) + GAP;
    }
  };
  for (const row of estimate.rows) pack(row, () => 0);
  const wish = (item: Item): number => {
    const xs = item.nets.flatMap((n) =>
      (estimate.nets[n]?.ends ?? []).filter((e) => e.item !== item).map((e) => pinAt(e.item, e.pin)),
    );
    return xs.length === 0 ? item.x : xs.reduce((s, x) => s + x, 0) / xs.length - item.box.w / 2;
  };
  for (let round = 0; round < SWEEPS; round++)
    for (const row of round % 2 === 0 ? estimate.rows : estimate.rows.toReversed()) pack(row, wish);
  return estimate.columns();
}
