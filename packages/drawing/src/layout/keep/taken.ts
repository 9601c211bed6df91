import type { Point } from "../../route/grid.ts";
import type { Routed } from "../../route/route.ts";
import type { Frame, Rect } from "../frame.ts";

/** Every cell of a path that is given by its corners. */
export function cellsOf(path: readonly Point[]): readonly Point[] {
  const [first] = path;
  const cells: Point[] = first === undefined ? [] : [{ x: first.x, y: first.y }];
  for (let i = 1; i < path.length; i++) {
    const [a, b] = [path[i - 1] as Point, path[i] as Point];
    const [dx, dy] = [b.x - a.x, b.y - a.y];
    const steps = Math.round(Math.max(Math.abs(dx), Math.abs(dy)));
    for (let k = 1; k <= steps; k++)
      cells.push({ x: Math.round(a.x + (dx * k) / steps), y: Math.round(a.y + (dy * k) / steps) });
  }
  return cells;
}

/** Made when it is first asked for: most edits bring nothing that needs a place. */
export function onAsking<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

const AROUND = 60;

/** Which places of a drawing are taken, summed up so that any rectangle is asked in one step. */
export class Taken {
  readonly bounds: Rect;
  /** Everything that stands somewhere, corner to corner. */
  readonly content: Rect;
  readonly #width: number;
  readonly #sums: Int32Array;
  readonly #only: Rect | undefined;

  /** @param closed what is taken besides; @param only where anything new must stand */
  constructor(frame: Frame, routed: Routed, closed: readonly Rect[] = [], only?: Rect) {
    this.#only = only;
    const rooms = [...frame.boxes.values()].map((b) => b.room);
    const bars = [...frame.bars.values()].map((b) => ({ x0: b.x0, x1: b.x1, y0: b.y, y1: b.y }));
    const paths = [...routed.wires.values(), ...routed.leads.map((l) => [l.from, l.to])];
    const points = paths.flatMap(cellsOf).map((p) => ({ x0: p.x, x1: p.x, y0: p.y, y1: p.y }));
    const all = [...rooms, ...bars, ...points, ...closed];
    const of = (pick: (r: Rect) => number, best: (a: number, b: number) => number) =>
      all.length === 0 ? 0 : all.map(pick).reduce((a, b) => best(a, b));
    this.content = {
      x0: Math.floor(of((r) => r.x0, Math.min)),
      y0: Math.floor(of((r) => r.y0, Math.min)),
      x1: Math.ceil(of((r) => r.x1, Math.max)),
      y1: Math.ceil(of((r) => r.y1, Math.max)),
    };
    const { x0, y0, x1, y1 } = this.content;
    this.bounds = { x0: x0 - AROUND, y0: y0 - AROUND, x1: x1 + AROUND, y1: y1 + AROUND };
    this.#width = this.bounds.x1 - this.bounds.x0 + 2;
    const height = this.bounds.y1 - this.bounds.y0 + 2;
    const sums = new Int32Array(this.#width * height);
    for (const r of all)
      for (let y = Math.floor(r.y0); y <= Math.ceil(r.y1); y++)
        for (let x = Math.floor(r.x0); x <= Math.ceil(r.x1); x++) sums[this.#at(x + 1, y + 1)] = 1;
    for (let j = 1; j < height; j++)
      for (let i = 1; i < this.#width; i++) {
        const k = j * this.#width + i;
        sums[k] =
          (sums[k] as number) +
          (sums[k - 1] as number) +
          (sums[k - this.#width] as number) -
          (sums[k - this.#width - 1] as number);
      }
    this.#sums = sums;
  }

  #at(x: number, y: number): number {
    return (y - this.bounds.y0) * this.#width + (x - this.bounds.x0);
  }

  /** Whether nothing stands in a rectangle; what lies outside the bounds is not free. */
  isFree(r: Rect): boolean {
    const o = this.#only;
    if (o !== undefined && (r.x0 < o.x0 || r.y0 < o.y0 || r.x1 > o.x1 || r.y1 > o.y1)) return false;
    const [x0, y0, x1, y1] = [Math.floor(r.x0), Math.floor(r.y0), Math.ceil(r.x1), Math.ceil(r.y1)];
    const b = this.bounds;
    if (x0 < b.x0 || y0 < b.y0 || x1 > b.x1 || y1 > b.y1) return false;
    const s = (x: number, y: number) => this.#sums[this.#at(x, y)] as number;
    return s(x1 + 1, y1 + 1) - s(x0, y1 + 1) - s(x1 + 1, y0) + s(x0, y0) === 0;
  }
}
