import type { Rect } from "../layout/frame.ts";
import { Heap } from "./heap.ts";

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** An end of a wire: where it leaves, in which directions it may, and the way in from its terminal (kept free of others). */
export interface RouteEnd {
  readonly at: Point;
  readonly ways: readonly Way[];
}

/** 0 right, 1 down, 2 left, 3 up. */
export type Way = 0 | 1 | 2 | 3;
const DX = [1, 0, -1, 0] as const;
const DY = [0, 1, 0, -1] as const;

export interface RouteJob {
  readonly id: string;
  readonly a: RouteEnd;
  readonly b: RouteEnd;
}

const COST = { step: 10, bend: 50, crossing: 70, beside: 6, beside2: 2, near: 4, onWire: 600, onPart: 2000 };

/**
 * The unit grid that wires run on. A cell may hold one horizontal and one vertical run that cross there; a bend, an end
 * or a dot fills it.
 */
export class Grid {
  readonly x0: number;
  readonly y0: number;
  readonly width: number;
  readonly height: number;
  readonly #blocked: Uint8Array;
  readonly #near: Uint8Array;
  /** Runs in each cell, counted, so that taking one up leaves the others. */
  readonly #across: Uint8Array;
  readonly #down: Uint8Array;
  readonly #full: Uint8Array;
  readonly #best: Int32Array;
  readonly #from: Int32Array;
  readonly #stamp: Int32Array;
  #tick = 0;

  constructor(bounds: Rect, rooms: readonly Rect[]) {
    this.x0 = Math.floor(bounds.x0);
    this.y0 = Math.floor(bounds.y0);
    this.width = Math.ceil(bounds.x1) - this.x0 + 1;
    this.height = Math.ceil(bounds.y1) - this.y0 + 1;
    const cells = this.width * this.height;
    this.#blocked = new Uint8Array(cells);
    this.#near = new Uint8Array(cells);
    this.#across = new Uint8Array(cells);
    this.#down = new Uint8Array(cells);
    this.#full = new Uint8Array(cells);
    this.#best = new Int32Array(cells * 4);
    this.#from = new Int32Array(cells * 4);
    this.#stamp = new Int32Array(cells * 4);
    for (const room of rooms) this.#mark(room);
  }

  #mark(room: Rect): void {
    for (let y = Math.ceil(room.y0 - 1); y <= Math.floor(room.y1 + 1); y++)
      for (let x = Math.ceil(room.x0 - 1); x <= Math.floor(room.x1 + 1); x++) {
        const i = this.cell(x, y);
        if (i < 0) continue;
        const inside = x >= room.x0 && x <= room.x1 && y >= room.y0 && y <= room.y1;
        if (inside) this.#blocked[i] = 1;
        else this.#near[i] = 1;
      }
  }

  cell(x: number, y: number): number {
    const [i, j] = [x - this.x0, y - this.y0];
    return i < 0 || j < 0 || i >= this.width || j >= this.height ? -1 : j * this.width + i;
  }

  /** Fills a cell for good: a dot, a lead, a pin. */
  fill(p: Point): void {
    const i = this.cell(p.x, p.y);
    if (i >= 0) this.#full[i] = (this.#full[i] ?? 0) + 1;
  }

  /** A horizontal run that wires may only cross: a bar. */
  bar(x0: number, x1: number, y: number): void {
    for (let x = x0; x <= x1; x++) {
      const i = this.cell(x, y);
      if (i >= 0) this.#across[i] = (this.#across[i] ?? 0) + 1;
    }
  }

  /** Lays a path down (+1) or takes it up (−1). */
  lay(path: readonly Point[], by: 1 | -1): void {
    for (let k = 0; k < path.length; k++) {
      const [p, q, r] = [path[k - 1], path[k], path[k + 1]];
      if (q === undefined) continue;
      const i = this.cell(q.x, q.y);
      if (i < 0) continue;
      const isStraight = p !== undefined && r !== undefined && (p.x === r.x || p.y === r.y);
      const list = !isStraight ? this.#full : p.y === r.y ? this.#across : this.#down;
      list[i] = (list[i] ?? 0) + by;
    }
  }

  /**
   * Cheapest path of cells from one end to the other, or undefined. `pressing` lets it run on what is in the way, at a
   * price: the last resort for a wire that would not be drawn at all.
   */
  find(job: RouteJob, pressing = false): { readonly path: readonly Point[]; readonly cost: number } | undefined {
    const tick = ++this.#tick;
    const goal = this.cell(job.b.at.x, job.b.at.y);
    const start = this.cell(job.a.at.x, job.a.at.y);
    if (goal < 0 || start < 0) return undefined;
    const heap = new Heap();
    const ahead = (i: number) => {
      const dx = Math.abs((i % this.width) + this.x0 - job.b.at.x);
      const dy = Math.abs(Math.floor(i / this.width) + this.y0 - job.b.at.y);
      return (dx + dy) * COST.step + (dx > 0 && dy > 0 ? COST.bend : 0);
    };
    for (const way of job.a.ways) {
      const s = start * 4 + way;
      this.#stamp[s] = tick;
      this.#best[s] = 0;
      this.#from[s] = -1;
      heap.push(ahead(start), s);
    }
    const arrivals = new Set(job.b.ways.map((w) => (w + 2) % 4));
    for (let s = heap.pop(); s >= 0; s = heap.pop()) {
      const i = s >> 2;
      const way = (s & 3) as Way;
      const cost = this.#best[s] ?? 0;
      if (i === goal && arrivals.has(way) && this.#from[s] !== -1) return { path: this.#trace(s), cost };
      if (this.#stamp[s] === -tick) continue;
      this.#stamp[s] = -tick;
      const x = (i % this.width) + this.x0;
      const y = Math.floor(i / this.width) + this.y0;
      for (const turn of [0, 1, 3] as const) {
        const next = ((way + turn) % 4) as Way;
        const isStart = this.#from[s] === -1;
        if (isStart && turn !== 0) continue;
        // A bend fills its cell: nobody else may be there.
        if (turn !== 0 && !pressing && ((this.#across[i] ?? 0) > 0 || (this.#down[i] ?? 0) > 0)) continue;
        const j = this.cell(x + DX[next], y + DY[next]);
        if (j < 0) continue;
        const enter = this.#enter(j, next, j === goal, pressing);
        if (enter < 0) continue;
        const total = cost + enter + (turn === 0 ? 0 : COST.bend);
        const t = j * 4 + next;
        const stamp = this.#stamp[t];
        if (stamp === -tick || (stamp === tick && (this.#best[t] ?? 0) <= total)) continue;
        this.#stamp[t] = tick;
        this.#best[t] = total;
        this.#from[t] = s;
        heap.push(total + ahead(j), t);
      }
    }
    return undefined;
  }

  #enter(i: number, way: Way, isGoal: boolean, pressing: boolean): number {
    if (isGoal) return COST.step;
    if (this.#blocked[i] === 1) return pressing ? COST.onPart : -1;
    const flat = way % 2 === 0;
    const [same, other] = flat ? [this.#across, this.#down] : [this.#down, this.#across];
    if ((this.#full[i] ?? 0) > 0 || (same[i] ?? 0) > 0) return pressing ? COST.onWire : -1;
    let cost = COST.step + (this.#near[i] === 1 ? COST.near : 0) + ((other[i] ?? 0) > 0 ? COST.crossing : 0);
    const side = flat ? this.width : 1;
    for (const d of [side, -side]) {
      if ((same[i + d] ?? 0) > 0 || (this.#full[i + d] ?? 0) > 0) cost += COST.beside;
      if ((same[i + 2 * d] ?? 0) > 0) cost += COST.beside2;
    }
    return cost;
  }

  #trace(end: number): readonly Point[] {
    const path: Point[] = [];
    for (let s = end; s !== -1; s = this.#from[s] ?? -1) {
      const i = s >> 2;
      path.push({ x: (i % this.width) + this.x0, y: Math.floor(i / this.width) + this.y0 });
    }
    return path.reverse();
  }
}
