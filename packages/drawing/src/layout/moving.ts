import type { Box, GraphPin } from "./graph.ts";

// Parts and nets on the move, and what it costs when nets meet each other and the parts.

/** From the layout study, tuned on invented looms. */
export const WEIGHT = {
  length: 0.6,
  perMm2: 0.05,
  barLength: 0.5,
  drop: 0.1,
  bent: 12,
  /** A jog of one or two units looks like a mistake, a big one like a route. */
  jog: 26,
  upward: 34,
  through: 26,
  crossing: 14,
  overBar: 13,
  beside: 10,
  overlap: 30,
  overlapUnit: 8,
  left: 0.35,
  outside: 1.2,
};

/** Drops nearer to each other than this run beside each other. */
export const BESIDE = 1.5;
export interface Item {
  readonly box: Box;
  readonly row: number;
  readonly y0: number;
  readonly y1: number;
  readonly heavy: boolean;
  /** Left edge of the symbol. */
  x: number;
  /** Nets that end here, by number. */
  readonly nets: number[];
}

export interface End {
  readonly item: Item;
  readonly pin: GraphPin;
}

export interface Net {
  readonly ends: readonly End[];
  /** Height of the bar; undefined for a wire. */
  readonly barY: number | undefined;
  readonly weight: number;
  readonly nudge: number;
  /** The trunk. */
  y: number;
  x0: number;
  x1: number;
  /** Highest and lowest point of trunk and drops. */
  top: number;
  bottom: number;
  /** Drops: x, top, bottom of each end. */
  readonly drops: Float64Array;
  own: number;
}

export const pinAt = ({ box, x }: Item, pin: GraphPin): number => x + (box.mirrored ? box.w - pin.x : pin.x);
export const leftOf = ({ box, x }: Item): number => x - box.left;
export const rightOf = ({ box, x }: Item): number => x + box.w + box.right;

export function dropsOver(net: Net, item: Item): number {
  const [x0, x1] = [leftOf(item) - 1, rightOf(item) + 1];
  if (net.x0 >= x1 || net.x1 <= x0 || net.top >= item.y1 || net.bottom <= item.y0) return 0;
  let n = 0;
  for (let i = 0; i < net.drops.length; i += 3) {
    if (net.ends[i / 3]?.item === item) continue;
    const x = net.drops[i] as number;
    if (
      x > x0 &&
      x < x1 &&
      (net.drops[i + 2] as number) > item.y0 + 0.5 &&
      (net.drops[i + 1] as number) < item.y1 - 0.5
    )
      n++;
  }
  return n;
}

/** Crossings of two nets, and drops that run beside each other. */
export function meet(p: Net, q: Net): number {
  let sum = over(p, q) + over(q, p);
  for (let i = 0; i < p.drops.length; i += 3) {
    const [x, a, b] = [p.drops[i] as number, p.drops[i + 1] as number, p.drops[i + 2] as number];
    for (let j = 0; j < q.drops.length; j += 3) {
      const d = x - (q.drops[j] as number);
      if (d < BESIDE && d > -BESIDE && a < (q.drops[j + 2] as number) - 1 && (q.drops[j + 1] as number) < b - 1)
        sum += WEIGHT.beside;
    }
  }
  return sum;
}

/** Drops of `v` over the trunk of `h`. */
function over(h: Net, v: Net): number {
  if (h.x1 <= h.x0 || h.y <= v.top || h.y >= v.bottom) return 0;
  let n = 0;
  for (let i = 0; i < v.drops.length; i += 3) {
    const x = v.drops[i] as number;
    if (x > h.x0 && x < h.x1 && h.y > (v.drops[i + 1] as number) && h.y < (v.drops[i + 2] as number)) n++;
  }
  return n * (h.barY === undefined ? WEIGHT.crossing : WEIGHT.overBar);
}
