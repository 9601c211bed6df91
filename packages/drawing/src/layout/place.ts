import type { Box, Graph, Link } from "./graph.ts";
import { random } from "./random.ts";
import type { Rows } from "./rows.ts";

/** Left edge of the symbol of each box, in units. */
export type Columns = Map<string, number>;

const GAP = 2;
const WEIGHT = {
  length: 0.6,
  perMm2: 0.02,
  bent: 12,
  jog: 26,
  through: 18,
  upward: 34,
  crossing: 14,
  overBar: 6,
  barLength: 0.5,
  left: 0.35,
};

export const pinX = (box: Box, x: number, terminal: string): number => {
  const pin = box.pins.find((p) => p.terminal === terminal);
  const at = pin?.x ?? box.w / 2;
  return x + (box.mirrored ? box.w - at : at);
};

interface Item {
  readonly box: Box;
  readonly row: number;
  /** Where it would like to stand; packing moves it right of its neighbour. */
  wish: number;
  x: number;
}

interface Wire {
  readonly a: Item | undefined;
  readonly b: Item | undefined;
  readonly link: Link;
  readonly weight: number;
}

/** Boxes of one drawing on the move. */
class Placing {
  readonly rows: Item[][] = [];
  readonly items = new Map<string, Item>();
  readonly wires: Wire[];
  readonly bars: {
    readonly id: string;
    readonly row: number;
    readonly ends: { readonly item: Item; readonly terminal: string }[];
  }[] = [];

  constructor(graph: Graph, rows: Rows, order: (a: Box, b: Box) => number) {
    for (const box of [...graph.boxes.values()].sort(order)) {
      const row = rows.get(box.id) ?? 0;
      if (box.kind === "bar") {
        this.bars.push({ id: box.id, row, ends: [] });
        continue;
      }
      const item: Item = { box, row, wish: 0, x: 0 };
      this.items.set(box.id, item);
      while (this.rows.length <= row) this.rows.push([]);
      this.rows[row]?.push(item);
    }
    this.wires = graph.links.map((link) => ({
      link,
      a: this.items.get(link.a.box),
      b: this.items.get(link.b.box),
      weight: WEIGHT.length + WEIGHT.perMm2 * (link.wire.areaMm2 ?? 1),
    }));
    for (const bar of this.bars)
      for (const { link, a, b } of this.wires) {
        if (link.a.box === bar.id && b !== undefined) bar.ends.push({ item: b, terminal: link.b.terminal });
        if (link.b.box === bar.id && a !== undefined) bar.ends.push({ item: a, terminal: link.a.terminal });
      }
    for (const row of this.rows) {
      let x = 0;
      for (const item of row) {
        item.wish = x + item.box.left;
        x += item.box.left + item.box.w + item.box.right + GAP;
      }
    }
    this.pack();
  }

  /** Wishes to places: left to right, nobody on anybody. */
  pack(): void {
    for (const row of this.rows) {
      row.sort((p, q) => p.wish - q.wish || (p.box.id < q.box.id ? -1 : 1));
      let edge = Number.NEGATIVE_INFINITY;
      for (const item of row) {
        item.x = Math.round(Math.max(item.wish, edge + item.box.left));
        edge = item.x + item.box.w + item.box.right + GAP;
      }
    }
  }

  covers(row: number, x: number): number {
    let n = 0;
    for (const { box, x: at } of this.rows[row] ?? []) if (x > at - box.left - 1 && x < at + box.w + box.right + 1) n++;
    return n;
  }

  cost(): number {
    let sum = 0;
    const spans: { readonly top: number; readonly bottom: number; readonly xt: number; readonly xb: number }[] = [];
    const barAt = new Map(this.bars.map((b) => [b.id, b]));
    const passes = (x: number, from: number, to: number) => {
      let n = 0;
      for (let r = Math.floor(from) + 1; r < to; r++) n += this.covers(r, x);
      return n;
    };
    for (const { link, a, b, weight } of this.wires) {
      if (a === undefined || b === undefined) {
        const item = a ?? b;
        const bar = barAt.get(a === undefined ? link.a.box : link.b.box);
        if (item === undefined || bar === undefined) continue;
        const x = pinX(item.box, item.x, a === undefined ? link.b.terminal : link.a.terminal);
        const [top, bottom] = item.row < bar.row ? [item.row, bar.row] : [bar.row, item.row];
        sum += WEIGHT.through * passes(x, top, Math.ceil(bottom));
        spans.push({ top, bottom, xt: x, xb: x });
        continue;
      }
      const xa = pinX(a.box, a.x, link.a.terminal);
      const xb = pinX(b.box, b.x, link.b.terminal);
      const d = Math.abs(xa - xb);
      sum += d * weight + (d === 0 ? 0 : d <= 2 ? WEIGHT.jog : WEIGHT.bent);
      const sideA = a.box.pins.find((p) => p.terminal === link.a.terminal)?.side;
      const sideB = b.box.pins.find((p) => p.terminal === link.b.terminal)?.side;
      const isDown =
        a.row < b.row ? sideA === "bottom" && sideB === "top" : a.row > b.row && sideB === "bottom" && sideA === "top";
      if (!isDown) sum += WEIGHT.upward;
      const [top, bottom, xt, xd] = a.row <= b.row ? [a.row, b.row, xa, xb] : [b.row, a.row, xb, xa];
      sum += WEIGHT.through * Math.min(passes(xt, top, bottom), passes(xd, top, bottom));
      spans.push({ top, bottom, xt, xb: xd });
    }
    for (let i = 0; i < spans.length; i++) {
      const p = spans[i];
      if (p === undefined) continue;
      for (let j = i + 1; j < spans.length; j++) {
        const q = spans[j];
        if (q === undefined || p.bottom <= q.top || q.bottom <= p.top) continue;
        if ((p.xt - q.xt) * (p.xb - q.xb) < 0) sum += WEIGHT.crossing;
      }
    }
    // Batteries, and with them the heavy cables, stand at the left.
    const batteries = [...this.items.values()].filter((i) => i.box.part?.family === "battery");
    if (batteries.length > 0) {
      const edge = Math.min(...[...this.items.values()].map((i) => i.x));
      for (const b of batteries) sum += WEIGHT.left * (b.x - edge);
    }
    for (const bar of this.bars) {
      const xs = bar.ends.map((e) => pinX(e.item.box, e.item.x, e.terminal));
      const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
      sum += WEIGHT.barLength * (x1 - x0);
      for (const s of spans) if (s.top < bar.row && s.bottom > bar.row && s.xt > x0 && s.xt < x1) sum += WEIGHT.overBar;
    }
    return sum;
  }
}

export interface PlaceOptions {
  readonly seed: number;
  readonly moves: number;
  readonly heat: number;
}

/**
 * Columns by simulated annealing on an estimate of the finished drawing: rows stay, order and distance in them move.
 * Boxes may be mirrored. Returns the cost with the columns.
 */
export function place(
  graph: Graph,
  rows: Rows,
  start: Columns | undefined,
  { seed, moves, heat }: PlaceOptions,
): { readonly columns: Columns; readonly cost: number } {
  const rnd = random(seed);
  const placing = new Placing(
    graph,
    rows,
    (a, b) => (start?.get(a.id) ?? 0) - (start?.get(b.id) ?? 0) || (a.id < b.id ? -1 : 1),
  );
  if (start) {
    for (const item of placing.items.values()) item.wish = start.get(item.box.id) ?? item.wish;
    placing.pack();
  } else sweep(placing);
  const items = [...placing.items.values()];
  if (items.length === 0) return { columns: new Map(), cost: 0 };
  const pick = <T>(list: readonly T[]): T => list[Math.floor(rnd() * list.length)] as T;
  let cost = placing.cost();
  let best = { cost, at: snapshot(items) };
  for (let k = 0; k < moves; k++) {
    const t = heat * (0.004 + 0.996 * (1 - k / moves) ** 2);
    const before = snapshot(items);
    propose(placing, pick(items), pick, rnd);
    placing.pack();
    const next = placing.cost();
    // e^(−x) by its first terms: only a threshold for a random number.
    const delta = (next - cost) / t;
    if (delta <= 0 || rnd() < 1 / (1 + delta + (delta * delta) / 2 + delta ** 3 / 6)) {
      cost = next;
      if (cost < best.cost - 1e-9) best = { cost, at: snapshot(items) };
    } else restore(items, before);
  }
  restore(items, best.at);
  placing.pack();
  return { columns: new Map(items.map((i) => [i.box.id, i.x])), cost: best.cost };
}

type Snapshot = readonly { readonly wish: number; readonly mirrored: boolean }[];
const snapshot = (items: readonly Item[]): Snapshot => items.map((i) => ({ wish: i.x, mirrored: i.box.mirrored }));
function restore(items: readonly Item[], at: Snapshot): void {
  items.forEach((item, i) => {
    const s = at[i];
    if (s === undefined) return;
    item.wish = s.wish;
    item.x = s.wish;
    item.box.mirrored = s.mirrored;
  });
}

function propose(placing: Placing, item: Item, pick: <T>(list: readonly T[]) => T, rnd: () => number): void {
  const what = rnd();
  for (const i of placing.items.values()) i.wish = i.x;
  if (what < 0.5) {
    // To the same column as something it is wired to.
    const wires = placing.wires.filter((w) => w.a === item || w.b === item);
    if (wires.length === 0) return;
    const w = pick(wires);
    const [own, other, mine, theirs] = w.a === item ? [w.a, w.b, w.link.a, w.link.b] : [w.b, w.a, w.link.b, w.link.a];
    const partner = other ?? pick(placing.bars.find((b) => b.id === theirs.box)?.ends.map((e) => e.item) ?? [item]);
    if (own === undefined || partner === item) return;
    const terminal = other === undefined ? (partner.box.pins[0]?.terminal ?? "") : theirs.terminal;
    item.wish = item.x + pinX(partner.box, partner.x, terminal) - pinX(item.box, item.x, mine.terminal);
  } else if (what < 0.68) item.wish = item.x + Math.round((rnd() - 0.5) * 16);
  else if (what < 0.9) {
    const other = pick(placing.rows[item.row] ?? [item]);
    [item.wish, other.wish] = [other.x, item.x];
  } else if (item.box.mirrors) item.box.mirrored = !item.box.mirrored;
  else item.wish = item.x + (rnd() < 0.5 ? -1 : 1);
}

/** A first order: each box under the middle of what it is wired to, from the top row down and back. */
function sweep(placing: Placing): void {
  for (let round = 0; round < 6; round++) {
    const rows = round % 2 === 0 ? placing.rows : placing.rows.toReversed();
    for (const row of rows) {
      for (const item of row) {
        const xs = placing.wires.flatMap(({ a, b, link }) => {
          if (a === item && b !== undefined && b !== item) return [pinX(b.box, b.x, link.b.terminal)];
          if (b === item && a !== undefined && a !== item) return [pinX(a.box, a.x, link.a.terminal)];
          return [];
        });
        const bars = placing.bars.flatMap((bar) =>
          bar.ends.some((e) => e.item === item) ? bar.ends.filter((e) => e.item !== item).map((e) => e.item.x) : [],
        );
        const all = [...xs, ...bars];
        item.wish = all.length === 0 ? item.x : all.reduce((s, x) => s + x, 0) / all.length - item.box.w / 2;
      }
      placing.pack();
    }
  }
}
