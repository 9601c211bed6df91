import { pinPitch } from "../symbols/module.ts";
import type { Estimate } from "./estimate.ts";
import type { GraphPin } from "./graph.ts";
import { type Item, pinAt } from "./moving.ts";
import { apart } from "./stretch.ts";

// What annealing may do to parts, each with its way back.

export interface Move {
  readonly items: readonly Item[];
  readonly go: () => void;
  readonly back: () => void;
}

export const shift = (items: readonly Item[], dx: number): Move | undefined =>
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

export function mirror(item: Item): Move {
  const turn = () => {
    item.box.mirrored = !item.box.mirrored;
  };
  return { items: [item], go: turn, back: turn };
}

export function swap(a: Item, b: Item | undefined): Move | undefined {
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

export function swapPins(item: Item, p: GraphPin | undefined, q: GraphPin | undefined): Move | undefined {
  if (p === undefined || q === undefined || p === q || p.side !== q.side) return undefined;
  const turn = () => {
    [p.x, q.x] = [q.x, p.x];
  };
  return { items: [item], go: turn, back: turn };
}

/** A pin along its edge; stretching gives it room there. */
export function movePin(item: Item, pin: GraphPin | undefined, dx: number): Move | undefined {
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
export function pinMoves(item: Item): readonly (Move | undefined)[] {
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
export function chainOf(estimate: Estimate, item: Item): readonly Item[] {
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
