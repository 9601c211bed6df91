import type { Routed } from "../route/route.ts";
import { titleRoom } from "../symbols/module.ts";
import type { Frame } from "./frame.ts";
import { type Along, type Drawn, mapped } from "./mapped.ts";

// Takes out of a routed drawing the columns and rows where nothing but straight wire passes. Nothing is routed again.

const KEEP_COLUMNS = 3;
const KEEP_ROWS = 6;
/** About a pin of a wide box: its number, its name, the name of a ground point. */
const PIN_ROOM = 2;

/** Shifts every place by the lines taken out before it. */
function fold(busy: ReadonlySet<number>, keep: number): Along {
  const all = [...busy];
  const [first, last] = [Math.min(...all), Math.max(...all)];
  const shift = new Map<number, number>();
  let [out, empty] = [0, 0];
  for (let v = first; v <= last; v++) {
    empty = busy.has(v) ? 0 : empty + 1;
    if (empty > keep) out++;
    shift.set(v, out);
  }
  return (v) => v - (shift.get(Math.floor(v)) ?? (v < first ? 0 : out));
}

const fill = (busy: Set<number>, a: number, b: number): void => {
  for (let v = Math.floor(a); v <= Math.ceil(b); v++) busy.add(v);
};

export function squeeze(frame: Frame, routed: Routed): Drawn {
  const [columns, rows] = [new Set<number>(), new Set<number>()];
  for (const { box, x, room } of frame.boxes.values()) {
    fill(rows, room.y0, room.y1);
    if (!box.stretches) {
      fill(columns, room.x0, room.x1);
      continue;
    }
    // A wide box gives way between its pins, but not under its title.
    fill(columns, room.x0, x + titleRoom(box.title, box.name));
    fill(columns, room.x1 - 1, room.x1);
    for (const pin of box.pins) fill(columns, x + pin.x - PIN_ROOM, x + pin.x + PIN_ROOM);
  }
  for (const bar of frame.bars.values()) {
    rows.add(bar.y);
    for (const x of [bar.x0, bar.x1, ...bar.dots.values()]) columns.add(x);
  }
  for (const p of [...[...routed.wires.values()].flat(), ...routed.leads.flatMap((l) => [l.from, l.to, ...l.dots])]) {
    columns.add(p.x);
    rows.add(p.y);
  }
  if (columns.size === 0 || rows.size === 0) return { frame, routed };
  const [fx, fy] = [fold(columns, KEEP_COLUMNS), fold(rows, KEEP_ROWS)];
  return mapped({ frame, routed }, fx, fy);
}
