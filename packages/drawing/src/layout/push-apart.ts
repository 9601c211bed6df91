import type { Estimate } from "./estimate.ts";
import type { Item } from "./moving.ts";

const GAP = 2;

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
export function pushApart(estimate: Estimate): void {
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
