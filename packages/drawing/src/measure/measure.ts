import type { Rect } from "../layout/frame.ts";
import { type BarItem, PX, type Scene, type Spot, type WireItem } from "../scene/items.ts";
import { NUMBER_REACH, numberDistance } from "../scene/labels.ts";
import { overlaps } from "../scene/rooms.ts";
import type { Stroke } from "../symbols/pen.ts";
import { textWidth } from "../texts/width.ts";

/** What is wrong with a drawing, counted on the scene. All but crossings, bends and length should be 0. */
export interface Measured {
  readonly symbolOnSymbol: number;
  readonly labelOnLabel: number;
  readonly labelOnWire: number;
  readonly labelOnSymbol: number;
  readonly wireOnSymbol: number;
  /** Level texts inside a symbol that stand out of it. */
  readonly textOutOfSymbol: number;
  /** Runs of two wires on each other. */
  readonly wireOnWire: number;
  /** Wires over wires. */
  readonly crossings: number;
  /** Wires over bars. */
  readonly overBars: number;
  readonly bends: number;
  /** Of all wires together, in units of 10 px. */
  readonly length: number;
  readonly unnumbered: number;
  /** Joints without their designation. */
  readonly unnamedBars: number;
  /** Wires whose number is far from both their ends. */
  readonly farNumbered: number;
  readonly smallestText: number;
}

const TOUCH = 0.5;
const shrunk = (r: Rect): Rect => ({ x0: r.x0 + TOUCH, x1: r.x1 - TOUCH, y0: r.y0 + TOUCH, y1: r.y1 - TOUCH });

interface Run {
  readonly wire: string;
  readonly a: Spot;
  readonly b: Spot;
  readonly width: number;
}

const body = ({ a, b, width }: Run): Rect => ({
  x0: Math.min(a.x, b.x) - (a.x === b.x ? width / 2 : 0),
  x1: Math.max(a.x, b.x) + (a.x === b.x ? width / 2 : 0),
  y0: Math.min(a.y, b.y) - (a.y === b.y ? width / 2 : 0),
  y1: Math.max(a.y, b.y) + (a.y === b.y ? width / 2 : 0),
});

export function measure(scene: Scene): Measured {
  const runs = scene.wires.flatMap((w) =>
    w.points.slice(1).map((b, i): Run => ({ wire: w.id, a: w.points[i] as Spot, b, width: w.width })),
  );
  const pairs = <T>(list: readonly T[], test: (p: T, q: T) => boolean): number => {
    let count = 0;
    list.forEach((p, i) => {
      for (const q of list.slice(i + 1)) if (test(p, q)) count++;
    });
    return count;
  };
  const labels = scene.texts.map((t) => shrunk(t.room));
  const symbols = scene.symbols.map((s) => ({ ...s, room: shrunk(s.room) }));
  const named = new Set(scene.texts.filter((t) => t.role === "wire").map((t) => t.text.split(" ")[0]));
  return {
    symbolOnSymbol: pairs(symbols, (p, q) => overlaps(p.room, q.room)),
    labelOnLabel: pairs(labels, overlaps),
    labelOnWire: count(labels, runs, (l, r) => overlaps(l, body(r))),
    labelOnSymbol: count(
      // Numbers of pins and words of flags stand inside symbols.
      scene.texts.filter((t) => t.role !== "pin" && t.role !== "link"),
      symbols,
      (t, s) => overlaps(shrunk(t.room), s.room),
    ),
    wireOnSymbol: count(runs, symbols, (r, s) => overlaps(body(r), s.room) && !endsAt(r, s.room)),
    textOutOfSymbol: scene.symbols.reduce(
      (sum, s) => sum + s.strokes.filter((k) => standsOut(k, s.width / PX)).length,
      0,
    ),
    wireOnWire: pairs(runs, (p, q) => p.wire !== q.wire && onEachOther(p, q)),
    crossings: pairs(runs, (p, q) => p.wire !== q.wire && cross(p, q)),
    bends: scene.wires.reduce((sum, w) => sum + Math.max(0, w.points.length - 2), 0),
    overBars: scene.bars.reduce((sum, b) => sum + runs.filter((r) => passes(r, b)).length, 0),
    length: Math.round(runs.reduce((sum, { a, b }) => sum + Math.abs(a.x - b.x) + Math.abs(a.y - b.y), 0) / PX),
    farNumbered: scene.wires.filter((w) => isFar(w, scene)).length,
    unnamedBars: scene.bars.length - scene.texts.filter((t) => t.role === "bar").length,
    unnumbered: scene.wires.filter((w) => !named.has(w.id)).length,
    smallestText: Math.min(...scene.texts.map((t) => t.size)),
  };
}

function count<P, Q>(ps: readonly P[], qs: readonly Q[], test: (p: P, q: Q) => boolean): number {
  let sum = 0;
  for (const p of ps) for (const q of qs) if (test(p, q)) sum++;
  return sum;
}

function standsOut(stroke: Stroke, width: number): boolean {
  if (stroke.kind !== "text" || stroke.upright) return false;
  const wide = textWidth(stroke.text, stroke.size, stroke.bold);
  const left = stroke.x - { start: 0, middle: wide / 2, end: wide }[stroke.anchor];
  return left < -TOUCH / PX || left + wide > width + TOUCH / PX;
}

/** A wire may end on the edge of a symbol: that is its terminal. */
function endsAt({ a, b }: Run, room: Rect): boolean {
  const onEdge = (p: Spot) =>
    p.x >= room.x0 && p.x <= room.x1 && (Math.abs(p.y - room.y0) <= 1 || Math.abs(p.y - room.y1) <= 1);
  const outside = (p: Spot) => p.y <= room.y0 + 1 || p.y >= room.y1 - 1;
  return (onEdge(a) && outside(b)) || (onEdge(b) && outside(a));
}

function onEachOther(p: Run, q: Run): boolean {
  const flat = (r: Run) => r.a.y === r.b.y;
  if (flat(p) !== flat(q)) return false;
  const [u, v] = flat(p) ? (["y", "x"] as const) : (["x", "y"] as const);
  if (Math.abs(p.a[u] - q.a[u]) >= 1) return false;
  const lap =
    Math.min(Math.max(p.a[v], p.b[v]), Math.max(q.a[v], q.b[v])) -
    Math.max(Math.min(p.a[v], p.b[v]), Math.min(q.a[v], q.b[v]));
  return lap > 1;
}

const passes = ({ a, b }: Run, bar: BarItem): boolean =>
  a.x === b.x && a.x > bar.x0 && a.x < bar.x1 && bar.y > Math.min(a.y, b.y) && bar.y < Math.max(a.y, b.y);

function isFar(wire: WireItem, { texts }: Scene): boolean {
  const numbers = texts.filter((t) => t.role === "wire" && t.text.split(" ")[0] === wire.id);
  return numbers.length > 0 && numbers.every((t) => numberDistance(wire, t.room) > NUMBER_REACH);
}

function cross(p: Run, q: Run): boolean {
  const [flat, tall] = p.a.y === p.b.y ? [p, q] : [q, p];
  if (flat.a.y !== flat.b.y || tall.a.x !== tall.b.x) return false;
  const inside = (v: number, a: number, b: number) => v > Math.min(a, b) && v < Math.max(a, b);
  return inside(tall.a.x, flat.a.x, flat.b.x) && inside(flat.a.y, tall.a.y, tall.b.y);
}
