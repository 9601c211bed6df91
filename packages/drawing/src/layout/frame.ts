import { barSlots, barsOf, type PlacedBar } from "./bars.ts";
import { type Columns, pinX } from "./columns.ts";
import type { Box, Graph } from "./graph.ts";
import type { Rows } from "./rows.ts";

// From columns and rows to places: tops of rows, bars with their dots.

export interface Rect {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export const isIn = ({ x0, y0, x1, y1 }: Rect, { x, y }: { readonly x: number; readonly y: number }): boolean =>
  x >= x0 && x <= x1 && y >= y0 && y <= y1;

export interface PlacedBox {
  readonly box: Box;
  /** Top left corner of the symbol. */
  readonly x: number;
  readonly y: number;
  /** Symbol, ink, label and tails together. */
  readonly room: Rect;
}

export interface Frame {
  readonly boxes: ReadonlyMap<string, PlacedBox>;
  readonly bars: ReadonlyMap<string, PlacedBar>;
}

const BAR_PITCH = 4;
const TOP = 6;

/** Room of a box at a place: nothing else may stand there. Pins leave upwards and downwards. */
export const roomOf = (box: Box, x: number, y: number): Rect => ({
  x0: x - box.left - 0.4,
  y0: y - 0.2,
  x1: x + box.w + box.right + 0.4,
  y1: y + box.h + box.bottom + 0.2,
});

/** @param air units added to every channel, when routing has not found room */
export function frameOf(graph: Graph, rows: Rows, columns: Columns, air: number): Frame {
  const count = Math.max(0, ...[...rows.values()].map((r) => Math.floor(r))) + 1;
  const inRow = (r: number) => [...graph.boxes.values()].filter((b) => b.kind !== "bar" && rows.get(b.id) === r);
  const barsIn = (r: number) =>
    [...graph.boxes.values()].filter((b) => b.kind === "bar" && Math.floor(rows.get(b.id) ?? 0) === r);
  const boxes = new Map<string, PlacedBox>();
  const barY = new Map<string, number>();
  const slots = barSlots(graph, rows, columns);
  const onTop = barsIn(-1);
  for (const b of onTop) barY.set(b.id, TOP + (slots.get(b.id) ?? 0) * BAR_PITCH);
  let y = TOP + (onTop.length === 0 ? 0 : 6 + air + Math.max(...onTop.map((b) => slots.get(b.id) ?? 0)) * BAR_PITCH);
  for (let r = 0; r < count; r++) {
    const row = inRow(r);
    for (const box of row) {
      const x = columns.get(box.id) ?? 0;
      boxes.set(box.id, { box, x, y, room: roomOf(box, x, y) });
    }
    const depth = Math.max(0, ...row.map((b) => b.h + b.bottom));
    const bars = barsIn(r);
    for (const b of bars) barY.set(b.id, Math.round(y + depth + 4 + (slots.get(b.id) ?? 0) * BAR_PITCH));
    const levels = Math.max(0, ...bars.map((b) => (slots.get(b.id) ?? 0) + 1));
    y = Math.ceil(y + depth + 5 + air + density(graph, rows, columns, r) * 1.1 + levels * BAR_PITCH);
  }
  const bars = barsOf(graph, columns, barY, (id) => boxes.get(id)?.y ?? 0);
  return { boxes: ordered(graph, boxes), bars: ordered(graph, bars) };
}

/** In the order of the graph, in which a drawing that is kept has them too. */
const ordered = <T>(graph: Graph, placed: ReadonlyMap<string, T>): ReadonlyMap<string, T> =>
  new Map([...graph.boxes.keys()].flatMap((id): [string, T][] => (placed.has(id) ? [[id, placed.get(id) as T]] : [])));

/** Most wires that run side by side between row r and the next. */
function density(graph: Graph, rows: Rows, columns: Columns, r: number): number {
  const spans = graph.links.flatMap((l) => {
    const [a, b] = [graph.boxes.get(l.a.box), graph.boxes.get(l.b.box)];
    if (a === undefined || b === undefined || a.kind === "bar" || b.kind === "bar") return [];
    const [ra, rb] = [rows.get(a.id) ?? 0, rows.get(b.id) ?? 0];
    if (Math.min(ra, rb) > r || Math.max(ra, rb) < r) return [];
    const [xa, xb] = [pinX(a, columns.get(a.id) ?? 0, l.a.terminal), pinX(b, columns.get(b.id) ?? 0, l.b.terminal)];
    return xa === xb ? [] : [[Math.min(xa, xb), Math.max(xa, xb)] as const];
  });
  let most = 0;
  for (const [x] of spans) most = Math.max(most, spans.filter(([a, b]) => a <= x && x < b).length);
  return most;
}
