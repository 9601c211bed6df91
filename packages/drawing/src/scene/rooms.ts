import type { Rect } from "../layout/frame.ts";
import type { Scene } from "./items.ts";

const CELL = 120;

/** Rectangles that can be asked quickly what overlaps them: by the squares of a grid that they touch. */
export class Rooms {
  readonly #cells = new Map<string, Rect[]>();

  constructor(rooms: Iterable<Rect> = []) {
    for (const r of rooms) this.add(r);
  }

  add(room: Rect): void {
    for (const key of cellsOf(room)) {
      const cell = this.#cells.get(key);
      if (cell === undefined) this.#cells.set(key, [room]);
      else cell.push(room);
    }
  }

  isFree(room: Rect): boolean {
    for (const key of cellsOf(room)) if (this.#cells.get(key)?.some((r) => overlaps(r, room))) return false;
    return true;
  }
}

function* cellsOf({ x0, y0, x1, y1 }: Rect): Iterable<string> {
  for (let x = Math.floor(x0 / CELL); x <= Math.floor(x1 / CELL); x++)
    for (let y = Math.floor(y0 / CELL); y <= Math.floor(y1 / CELL); y++) yield `${x} ${y}`;
}

export const overlaps = (p: Rect, q: Rect): boolean => p.x0 < q.x1 && q.x0 < p.x1 && p.y0 < q.y1 && q.y0 < p.y1;

/** Half of what a sleeve adds to its wire. */
const SLEEVE = 6;

/** What wires with their sleeves and bars cover, `more` px wider on each side. */
export function* wireRooms({ wires, bars }: Pick<Scene, "wires" | "bars">, more: number): Iterable<Rect> {
  for (const { points, width, sleeve } of wires)
    for (const [i, b] of points.slice(1).entries()) {
      const a = points[i] ?? b;
      const half = width / 2 + Math.max(more, sleeve === undefined ? 0 : SLEEVE);
      yield {
        x0: Math.min(a.x, b.x) - half,
        y0: Math.min(a.y, b.y) - half,
        x1: Math.max(a.x, b.x) + half,
        y1: Math.max(a.y, b.y) + half,
      };
    }
  for (const { x0, x1, y } of bars) yield { x0, x1, y0: y - 2 - more, y1: y + 2 + more };
}
