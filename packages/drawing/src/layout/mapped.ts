import type { Routed } from "../route/route.ts";
import type { PlacedBar } from "./bars.ts";
import { type Frame, type PlacedBox, roomOf } from "./frame.ts";

/** Where an old column or row stands now. */
export type Along = (v: number) => number;

export interface Drawn {
  readonly frame: Frame;
  readonly routed: Routed;
}

/** A routed drawing with its columns and rows elsewhere. Boxes that give way are narrowed in place. */
export function mapped({ frame, routed }: Drawn, fx: Along, fy: Along): Drawn {
  const at = <P extends { readonly x: number; readonly y: number }>(p: P): P => ({ ...p, x: fx(p.x), y: fy(p.y) });
  return {
    frame: {
      boxes: new Map([...frame.boxes].map(([id, b]) => [id, moved(b, fx, fy)])),
      bars: new Map([...frame.bars].map(([id, b]) => [id, movedBar(b, fx, fy)])),
    },
    routed: {
      pressed: routed.pressed,
      wires: new Map([...routed.wires].map(([id, path]) => [id, path.map(at)])),
      leads: routed.leads.map((l) => ({ ...l, from: at(l.from), to: at(l.to), dots: l.dots.map(at) })),
    },
  };
}

function moved({ box, x, y }: PlacedBox, fx: Along, fy: Along): PlacedBox {
  const left = fx(x);
  if (box.stretches) {
    for (const pin of box.pins) pin.x = fx(x + pin.x) - left;
    box.w = fx(x + box.w) - left;
  }
  return { box, x: left, y: fy(y), room: roomOf(box, left, fy(y)) };
}

const movedBar = (bar: PlacedBar, fx: Along, fy: Along): PlacedBar => ({
  id: bar.id,
  y: fy(bar.y),
  x0: fx(bar.x0),
  x1: fx(bar.x1),
  dots: new Map([...bar.dots].map(([wire, x]) => [wire, fx(x)])),
});
