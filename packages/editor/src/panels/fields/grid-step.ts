type Box = Pick<HTMLElement, "getBoundingClientRect">;

/**
 * Where an arrow key leads from the item at `at`, in items that flow in lines: by one to the side, else to the nearest in
 * the line above or below. Undefined for any other key; the same place where nothing lies that way.
 */
export function step(items: readonly Box[], at: number, key: string): number | undefined {
  const last = items.length - 1;
  if (key === "Home") return 0;
  if (key === "End") return last;
  if (key === "ArrowLeft") return Math.max(0, at - 1);
  if (key === "ArrowRight") return Math.min(last, at + 1);
  const way = { ArrowUp: -1, ArrowDown: 1 }[key];
  const here = items[at]?.getBoundingClientRect();
  if (way === undefined || here === undefined) return undefined;
  let best: { readonly at: number; readonly down: number; readonly aside: number } | undefined;
  for (const [i, item] of items.entries()) {
    const box = item.getBoundingClientRect();
    const down = (box.top - here.top) * way;
    if (down < here.height / 2) continue;
    const aside = Math.abs(box.left + box.width / 2 - here.left - here.width / 2);
    const isNearer = best === undefined || down < best.down - 1 || (down < best.down + 1 && aside < best.aside);
    if (isNearer) best = { at: i, down, aside };
  }
  return best?.at ?? at;
}
