import { pinPitch, titleRoom } from "../symbols/module.ts";
import { textWidth } from "../texts/width.ts";
import { type Columns, pinX } from "./columns.ts";
import type { Box, Graph, GraphPin } from "./graph.ts";

const EDGE = 2;
const LEAST_WIDTH = 12;
/** Pins do not follow partners further than this, unless there are more pins than fit. */
const MOST_WIDTH = 180;
const MOST_PER_PIN = 14;

/**
 * Pulls a module wide so that each pin stands straight over or under what it serves. Pins keep room
 * for their numbers between them; a pin whose partner is far away stays near its neighbours.
 */
export function stretch(graph: Graph, columns: Columns): void {
  for (const box of graph.boxes.values()) {
    if (!box.stretches) continue;
    const x = columns.get(box.id) ?? 0;
    const all = box.pins.map((p) => wishOf(graph, columns, box, p.terminal));
    const known = all.filter((v) => v !== undefined);
    const middle = known.length === 0 ? x + box.w / 2 : known.reduce((s, v) => s + v, 0) / known.length;
    const half = Math.min(MOST_WIDTH, MOST_PER_PIN * box.pins.length) / 2;
    const near = (v: number) => Math.round(Math.max(middle - half, Math.min(middle + half, v)));
    const wishes = new Map(box.pins.map((p, i) => [p.terminal, all[i] === undefined ? undefined : near(all[i])]));
    const sides = (["top", "bottom"] as const).map((side) => {
      const pins = box.pins.filter((p) => p.side === side);
      const wish = (t: string) => wishes.get(t) ?? x + (box.pins.find((p) => p.terminal === t)?.x ?? 0);
      return {
        pins: pins.toSorted((a, b) => wish(a.terminal) - wish(b.terminal) || (a.terminal < b.terminal ? -1 : 1)),
        wish,
      };
    });
    const pitch = pinPitch(box.pins.map((p) => p.terminal));
    const placed = new Map<string, number>();
    for (const { pins, wish } of sides)
      for (const [i, at] of spread(
        pins.map((p) => wish(p.terminal)),
        pins.slice(1).map((p, i) => apart(pins[i] as GraphPin, p, pitch)),
      ).entries())
        placed.set(pins[i]?.terminal ?? "", at);
    const xs = [...placed.values()];
    if (xs.length === 0) continue;
    const left = Math.round(Math.min(...xs)) - EDGE;
    for (const pin of box.pins) pin.x = (placed.get(pin.terminal) ?? 0) - left;
    box.w = Math.max(LEAST_WIDTH, Math.ceil(titleRoom(box.title, box.name)), Math.ceil(Math.max(...xs)) + pitch - left);
    columns.set(box.id, left);
  }
}

/** Where the other ends of a pin's wires stand, on average; undefined if that is not known. */
function wishOf(graph: Graph, columns: Columns, box: Box, terminal: string): number | undefined {
  const xs = graph.links.flatMap((l) => {
    const other =
      l.a.box === box.id && l.a.terminal === terminal
        ? l.b
        : l.b.box === box.id && l.b.terminal === terminal
          ? l.a
          : undefined;
    const far = other === undefined ? undefined : graph.boxes.get(other.box);
    if (other === undefined || far === undefined || far.kind === "bar" || far === box) return [];
    return [pinX(far, columns.get(far.id) ?? 0, other.terminal)];
  });
  return xs.length === 0 ? undefined : xs.reduce((s, v) => s + v, 0) / xs.length;
}

const GROUND_PX = 10.5;
/** Beside a tail: the number of its wire at the left, half the name of its ground point at either side. */
const reach = ({ tail }: GraphPin): { readonly left: number; readonly right: number } => {
  if (tail === undefined) return { left: 0.6, right: 0.6 };
  const half = textWidth(tail.ground, GROUND_PX) / 2;
  return { left: Math.max(half, 1.7) + 0.3, right: half + 0.3 };
};

export const apart = (p: GraphPin, q: GraphPin, pitch: number): number =>
  p.tail === undefined && q.tail === undefined ? pitch : Math.max(pitch, Math.ceil(reach(p).right + reach(q).left));

interface Block {
  /** Wish of each pin, less its distance from the first of the block. */
  readonly wishes: number[];
  readonly offsets: number[];
}

/**
 * Places in order, at least `gaps` apart: pins that collide become a block, and a block settles where most of its pins
 * stand exactly where they wish, the nearest such place if there are several.
 */
function spread(wishes: readonly number[], gaps: readonly number[]): readonly number[] {
  const blocks: Block[] = [];
  const start = ({ wishes: w }: Block) => w.reduce((s, v) => s + v, 0) / w.length;
  const end = (b: Block) => start(b) + (b.offsets.at(-1) ?? 0);
  wishes.forEach((wish, i) => {
    blocks.push({ wishes: [wish], offsets: [0] });
    for (let last = blocks.length - 1; last > 0; last--) {
      const [p, q] = [blocks[last - 1] as Block, blocks[last] as Block];
      const gap = gaps[i - q.wishes.length] ?? 0;
      if (end(p) + gap <= start(q)) break;
      const by = (p.offsets.at(-1) ?? 0) + gap;
      blocks.splice(last - 1, 2, {
        wishes: [...p.wishes, ...q.wishes.map((w) => w - by)],
        offsets: [...p.offsets, ...q.offsets.map((o) => o + by)],
      });
    }
  });
  const placed: number[] = [];
  for (const b of blocks) {
    const mean = start(b);
    const exact = (x: number) => b.wishes.filter((w) => Math.abs(w - x) < 0.5).length;
    const [first = mean] = b.wishes.toSorted(
      (p, q) => exact(q) - exact(p) || Math.abs(p - mean) - Math.abs(q - mean) || p - q,
    );
    const least =
      placed.length === 0 ? Number.NEGATIVE_INFINITY : (placed.at(-1) ?? 0) + (gaps[placed.length - 1] ?? 0);
    const at = Math.max(Math.round(first), least);
    placed.push(...b.offsets.map((o) => at + o));
  }
  return placed;
}
