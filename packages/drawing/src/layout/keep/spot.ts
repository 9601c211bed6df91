import type { Rect } from "../frame.ts";
import type { Taken } from "./taken.ts";

/** Where a wire of the new thing goes: the other end, and which way that end and its own face. */
export interface Pull {
  /** Its own terminal, from the corner of the new thing. */
  readonly dx: number;
  readonly dy: number;
  readonly side: "top" | "bottom" | undefined;
  /** Nearest and furthest x it may meet its partner at. */
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
}

export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly cost: number;
}

const WEIGHT = { bent: 8, wrongWay: 30, drop: 0.5 };
/** Wires leave upwards and downwards: so much stays free over and under a part. */
const WAY_OUT = 4;
const BESIDE = 2;

/** The cheapest free place: near its partners, straight over or under them, the right way round. */
export function freeSpot(taken: Taken, room: Rect, pulls: readonly Pull[]): Spot | undefined {
  const { bounds } = taken;
  let best: Spot | undefined;
  for (let y = bounds.y0; y <= bounds.y1; y++)
    for (let x = bounds.x0; x <= bounds.x1; x++) {
      const cost = pulls.reduce((sum, p) => sum + pull(p, x, y), 0);
      if (best !== undefined && cost >= best.cost) continue;
      const free = taken.isFree({
        x0: x + room.x0 - BESIDE,
        x1: x + room.x1 + BESIDE,
        y0: y + room.y0 - WAY_OUT,
        y1: y + room.y1 + WAY_OUT,
      });
      if (free) best = { x, y, cost };
    }
  return best;
}

function pull({ dx, dy, side, x0, x1, y: far }: Pull, x: number, y: number): number {
  const [px, py] = [x + dx, y + dy];
  const aside = px < x0 ? x0 - px : px > x1 ? px - x1 : 0;
  const wrong = side === "top" ? far > py - 2 : side === "bottom" ? far < py + 2 : false;
  return aside + Math.abs(far - py) * WEIGHT.drop + (aside > 0 ? WEIGHT.bent : 0) + (wrong ? WEIGHT.wrongWay : 0);
}
