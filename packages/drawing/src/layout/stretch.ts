import { pinPitch, titleRoom } from "../symbols/module.ts";
import type { Box, Graph } from "./graph.ts";
import { type Columns, pinX } from "./columns.ts";

const EDGE = 2;
const MOST_WIDTH = 160;

/**
 * Pulls a module wide so that each pin stands straight over or under what it serves. Pins keep room
 * for their numbers between them; a pin whose partner is far away stays near its neighbours.
 */
export function stretch(graph: Graph, columns: Columns): void {
  for (const box of graph.boxes.values()) {
    if (!box.stretches) continue;
    const x = columns.get(box.id) ?? 0;
    const wishes = new Map(box.pins.map((p) => [p.terminal, wishOf(graph, columns, box, p.terminal)]));
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
        pitch,
      ).entries())
        placed.set(pins[i]?.terminal ?? "", at);
    const all = [...placed.values()];
    if (all.length === 0) continue;
    const left = Math.round(Math.min(...all)) - EDGE;
    const width = Math.min(
      MOST_WIDTH,
      Math.max(12, Math.ceil(titleRoom(box.title, box.name)), Math.round(Math.max(...all)) + pitch - left),
    );
    for (const pin of box.pins)
      pin.x = Math.min(width - 1, Math.max(1, Math.round(placed.get(pin.terminal) ?? 0) - left));
    box.w = width;
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

/** Places in order, at least `pitch` apart, moved as little as can be: blocks that collide are centred on their wishes. */
function spread(wishes: readonly number[], pitch: number): readonly number[] {
  const blocks: { sum: number; count: number }[] = [];
  const start = (b: { sum: number; count: number }) => b.sum / b.count - ((b.count - 1) * pitch) / 2;
  for (const w of wishes) {
    blocks.push({ sum: w, count: 1 });
    for (let last = blocks.length - 1; last > 0; last--) {
      const [p, q] = [blocks[last - 1], blocks[last]];
      if (p === undefined || q === undefined || start(p) + p.count * pitch <= start(q)) break;
      blocks.splice(last - 1, 2, { sum: p.sum + q.sum, count: p.count + q.count });
    }
  }
  return blocks.flatMap((b) => Array.from({ length: b.count }, (_, i) => Math.round(start(b)) + i * pitch));
}
