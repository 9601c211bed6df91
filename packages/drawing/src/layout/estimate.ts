import type { Columns } from "./columns.ts";
import type { Graph } from "./graph.ts";
import { BESIDE, dropsOver, type End, type Item, leftOf, meet, type Net, pinAt, rightOf, WEIGHT } from "./moving.ts";
import type { Rows } from "./rows.ts";

// An estimate of the finished drawing, before anything is routed: each wire is a trunk near its lower end with a drop to
// each of its ends, each bar a trunk with a drop to each of its wires. Cheap to count again for the parts that moved.

const HEAVY_MM2 = 16;
const CHANNEL = 10;
const GAP = 2;
/** Trunks stand this far over their lower ends. */
const TRUNK = 3;

export class Estimate {
  readonly items: readonly Item[];
  readonly rows: readonly (readonly Item[])[];
  readonly nets: readonly Net[];
  readonly byId: ReadonlyMap<string, Item>;
  readonly #tops: readonly number[];
  readonly #deepest: number;
  /** Where each net is, by number: left, right, top, bottom. Most nets are told apart by these alone. */
  readonly #x0: Float64Array;
  readonly #x1: Float64Array;
  readonly #top: Float64Array;
  readonly #bottom: Float64Array;
  /** Nets of what moves now. */
  readonly #mark: Uint8Array;
  #moved: number[] = [];

  constructor(graph: Graph, rows: Rows) {
    const boxes = [...graph.boxes.values()].filter((b) => b.kind !== "bar");
    const heavy = new Set(graph.links.flatMap((l) => ((l.wire.areaMm2 ?? 1) >= HEAVY_MM2 ? [l.a.box, l.b.box] : [])));
    const count = Math.max(0, ...[...rows.values()].map((r) => Math.floor(r))) + 1;
    const tops: number[] = [];
    let y = 0;
    for (let r = 0; r < count; r++) {
      tops.push(y);
      y += Math.max(0, ...boxes.filter((b) => rows.get(b.id) === r).map((b) => b.h + b.bottom)) + CHANNEL;
    }
    this.items = boxes.map((box): Item => {
      const row = rows.get(box.id) ?? 0;
      const y0 = tops[row] ?? 0;
      return { box, row, y0, y1: y0 + box.h + box.bottom, heavy: heavy.has(box.id), x: 0, nets: [] };
    });
    this.#tops = tops;
    this.#deepest = Math.max(0, ...this.items.map((i) => i.y1 - i.y0));
    this.byId = new Map(this.items.map((i) => [i.box.id, i]));
    this.rows = tops.map((_, r) => this.items.filter((i) => i.row === r));
    const barY = barHeights(graph, rows, tops, y);
    this.nets = this.#netsOf(graph, barY);
    this.#mark = new Uint8Array(this.nets.length);
    [this.#x0, this.#x1, this.#top, this.#bottom] = Array.from(
      { length: 4 },
      () => new Float64Array(this.nets.length),
    ) as [Float64Array, Float64Array, Float64Array, Float64Array];
    this.nets.forEach((net, i) => {
      for (const e of net.ends) if (!e.item.nets.includes(i)) e.item.nets.push(i);
    });
  }

  #netsOf(graph: Graph, barY: ReadonlyMap<string, number>): readonly Net[] {
    const end = (e: { readonly box: string; readonly terminal: string }): End[] => {
      const item = this.byId.get(e.box);
      const pin = item?.box.pins.find((p) => p.terminal === e.terminal);
      return item === undefined || pin === undefined ? [] : [{ item, pin }];
    };
    const made: Net[] = [];
    const add = (ends: readonly End[], at: number | undefined, mm2: number) => {
      const weight = WEIGHT.length + WEIGHT.perMm2 * Math.min(mm2, 10);
      const nudge = ((made.length * 7) % 5) * 0.5;
      made.push({
        ends,
        barY: at,
        weight,
        nudge,
        y: 0,
        x0: 0,
        x1: 0,
        top: 0,
        bottom: 0,
        drops: new Float64Array(3 * ends.length),
        own: 0,
      });
    };
    for (const [bar, at] of barY) {
      const mine = graph.links.filter((l) => l.a.box === bar || l.b.box === bar);
      const ends = mine.flatMap((l) => end(l.a.box === bar ? l.b : l.a));
      if (ends.length > 0) add(ends, at, Math.max(...mine.map((l) => l.wire.areaMm2 ?? 1)));
    }
    for (const l of graph.links) {
      const ends = [...end(l.a), ...end(l.b)];
      if (ends.length === 2 && ends[0] !== undefined) add(ends, undefined, l.wire.areaMm2 ?? 1);
    }
    return made;
  }

  /** Trunk, drops and own cost of a net where its parts stand now. */
  #draw(net: Net): void {
    const { ends, drops } = net;
    let [top, bottom] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const { item, pin } of ends)
      if (pin.side === "top") top = Math.min(top, item.y0);
      else bottom = Math.max(bottom, item.y0 + item.box.h);
    const isBar = net.barY !== undefined;
    const y = net.barY ?? (top === Number.POSITIVE_INFINITY ? bottom + TRUNK + net.nudge : top - TRUNK - net.nudge);
    let [x0, x1, own] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
    net.top = y;
    net.bottom = y;
    for (let i = 0; i < ends.length; i++) {
      const { item, pin } = ends[i] as End;
      const at = pin.side === "top" ? item.y0 : item.y0 + item.box.h;
      let x = pinAt(item, pin);
      if (pin.side === "bottom" ? y < at + 1 : y > at - 1) {
        own += WEIGHT.upward;
        x += pin.x > item.box.w / 2 !== item.box.mirrored ? 3 : -3;
      }
      if (x < x0) x0 = x;
      if (x > x1) x1 = x;
      drops[3 * i] = x;
      const [from, to] = at < y ? [at, y] : [y, at];
      drops[3 * i + 1] = from;
      drops[3 * i + 2] = to;
      if (from < net.top) net.top = from;
      if (to > net.bottom) net.bottom = to;
      own += (to - from) * WEIGHT.drop * net.weight + WEIGHT.through * this.#passed(x, from, to, item);
    }
    const d = x1 - x0;
    own += d * (isBar ? WEIGHT.barLength : net.weight);
    if (!isBar && d > 0) own += d < 3 ? WEIGHT.jog : WEIGHT.bent;
    net.y = y;
    net.x0 = x0;
    net.x1 = x1;
    net.own = own;
  }

  /** Boxes that a drop would run through: row by row from where it begins, as far as it goes. */
  #passed(x: number, y0: number, y1: number, own: Item): number {
    let n = 0;
    for (let r = own.row; r < this.rows.length && (this.#tops[r] as number) < y1; r++)
      n += this.#passedIn(r, x, y0, y1, own);
    for (let r = own.row - 1; r >= 0 && (this.#tops[r] as number) + this.#deepest > y0; r--)
      n += this.#passedIn(r, x, y0, y1, own);
    return n;
  }

  #passedIn(r: number, x: number, y0: number, y1: number, own: Item): number {
    let n = 0;
    for (const i of this.rows[r] as readonly Item[])
      if (i !== own && x > leftOf(i) - 1 && x < rightOf(i) + 1 && y1 > i.y0 + 0.5 && y0 < i.y1 - 0.5) n++;
    return n;
  }

  drawAll(): void {
    for (let n = 0; n < this.nets.length; n++) this.#place(n);
  }

  #place(n: number): void {
    const net = this.nets[n] as Net;
    this.#draw(net);
    this.#x0[n] = net.x0;
    this.#x1[n] = net.x1;
    this.#top[n] = net.top;
    this.#bottom[n] = net.bottom;
  }

  /** Draws the nets of what has moved. */
  draw(moved: readonly Item[]): void {
    this.#note(moved);
    for (const n of this.#moved) this.#place(n);
  }

  #note(moved: readonly Item[]): void {
    const mark = this.#mark;
    for (const n of this.#moved) mark[n] = 0;
    this.#moved = [];
    for (const item of moved)
      for (const n of item.nets)
        if (mark[n] === 0) {
          mark[n] = 1;
          this.#moved.push(n);
        }
  }

  /**
   * What these items, their nets and everything that these meet cost, as last drawn. Nothing more is counted once that
   * is over `most`.
   */
  costOf(moved: readonly Item[], most = Number.POSITIVE_INFINITY): number {
    this.#note(moved);
    const mark = this.#mark;
    const { nets } = this;
    const [x0, x1, top, bottom] = [this.#x0, this.#x1, this.#top, this.#bottom];
    let sum = 0;
    for (const n of this.#moved) sum += (nets[n] as Net).own;
    for (const item of moved) sum += this.#stand(item, moved);
    for (const n of this.#moved) {
      if (sum > most) return sum;
      const net = nets[n] as Net;
      const [left, right, up, down] = [net.x0 - BESIDE, net.x1 + BESIDE, net.top, net.bottom];
      for (let m = 0; m < x0.length; m++) {
        if (
          (x0[m] as number) >= right ||
          (x1[m] as number) <= left ||
          (top[m] as number) >= down ||
          (bottom[m] as number) <= up
        )
          continue;
        // A pair of two moved nets counts once.
        if (m !== n && (m > n || mark[m] === 0)) sum += meet(net, nets[m] as Net);
      }
    }
    for (const item of moved) {
      if (sum > most) return sum;
      const [left, right] = [leftOf(item) - 1, rightOf(item) + 1];
      for (let m = 0; m < x0.length; m++) {
        if (
          mark[m] === 1 ||
          (x0[m] as number) >= right ||
          (x1[m] as number) <= left ||
          (top[m] as number) >= item.y1 ||
          (bottom[m] as number) <= item.y0
        )
          continue;
        sum += WEIGHT.through * dropsOver(nets[m] as Net, item);
      }
    }
    return sum;
  }

  /** Overlaps in the row, and the pull to the left of what carries heavy cable. */
  #stand(item: Item, moved: readonly Item[]): number {
    let sum = item.heavy ? WEIGHT.left * Math.max(0, item.x) : 0;
    if (item.x < 0) sum -= WEIGHT.outside * item.x;
    for (const other of this.rows[item.row] ?? []) {
      if (other === item || (moved.includes(other) && moved.indexOf(other) < moved.indexOf(item))) continue;
      const o = Math.min(rightOf(item), rightOf(other)) - Math.max(leftOf(item), leftOf(other)) + GAP;
      if (o > 0) sum += WEIGHT.overlap + WEIGHT.overlapUnit * o;
    }
    return sum;
  }

  /** Where everything stands now. */
  columns(): Columns {
    return new Map(this.items.map((i) => [i.box.id, i.x]));
  }
}

/** Heights of bars in the channel under their row. */
function barHeights(graph: Graph, rows: Rows, tops: readonly number[], end: number): ReadonlyMap<string, number> {
  const inChannel = new Map<number, number>();
  const heights = new Map<string, number>();
  for (const box of graph.boxes.values()) {
    if (box.kind !== "bar") continue;
    const r = Math.floor(rows.get(box.id) ?? 0);
    const n = inChannel.get(r) ?? 0;
    inChannel.set(r, n + 1);
    heights.set(box.id, (tops[r + 1] ?? end) - CHANNEL + 3 + n * 1.5);
  }
  return heights;
}
