import { pinPitch } from "../../symbols/module.ts";
import { pinX } from "../columns.ts";
import { type PlacedBox, roomOf } from "../frame.ts";
import type { Box, Graph, GraphPin } from "../graph.ts";
import type { Placed } from "../layout.ts";
import { apart } from "../stretch.ts";
import type { Taken } from "./taken.ts";

// Old parts keep their places, and with them their pins. A wide box that gets a new pin finds a free place for it along
// the same edge.

const sidesOf = (pins: readonly GraphPin[]): string => pins.map((p) => `${p.terminal} ${p.side}`).join(",");

/** A new box in the place of the old one of the same name; undefined if it is another thing now. */
function adopted(
  box: Box,
  old: PlacedBox,
  wishOf: (pin: GraphPin) => number | undefined,
  taken: Taken,
): Box | undefined {
  if (box.kind !== old.box.kind || box.stretches !== old.box.stretches || box.part?.family !== old.box.part?.family)
    return undefined;
  if (!box.stretches) {
    const same = box.w === old.box.w && box.h === old.box.h && sidesOf(box.pins) === sidesOf(old.box.pins);
    return same ? { ...box, mirrored: old.box.mirrored } : undefined;
  }
  const before = new Map(old.box.pins.map((p) => [p.terminal, p]));
  const pins = box.pins.flatMap((p): GraphPin[] => {
    const known = before.get(p.terminal);
    return known === undefined ? [] : [{ ...p, x: known.x, side: known.side }];
  });
  const pitch = pinPitch(box.pins.map((p) => p.terminal));
  let { w } = old.box;
  for (const pin of box.pins) {
    if (before.has(pin.terminal)) continue;
    const wish = wishOf(pin) ?? old.x + w / 2;
    const beside = pins.filter((p) => p.side === pin.side);
    const isFree = (x: number) =>
      beside.every(
        (p) => Math.abs(p.x - x) >= (x < p.x ? apart({ ...pin, x }, p, pitch) : apart(p, { ...pin, x }, pitch)),
      ) && taken.isFree(ahead(old, pin.side, x));
    const places = Array.from({ length: w - 3 }, (_, i) => i + 2).filter(isFree);
    const [best] = places.sort((a, b) => Math.abs(old.x + a - wish) - Math.abs(old.x + b - wish) || a - b);
    // No room: the box grows to the right.
    pins.push({ ...pin, x: best ?? w });
    if (best === undefined) w += pitch;
  }
  return { ...box, h: old.box.h, w, pins };
}

/** What must be free in front of a new pin. */
const ahead = ({ x, y, room, box }: PlacedBox, side: "top" | "bottom", at: number) =>
  side === "top"
    ? { x0: x + at, x1: x + at, y0: y - 4, y1: Math.ceil(room.y0) - 1 }
    : { x0: x + at, x1: x + at, y0: Math.floor(Math.max(room.y1, y + box.h)) + 1, y1: y + box.h + 4 };

/** Old boxes in their old places. */
export function adopt(graph: Graph, old: Placed, taken: Taken): ReadonlyMap<string, PlacedBox> {
  const boxes = new Map<string, PlacedBox>();
  for (const box of graph.boxes.values()) {
    const before = old.frame.boxes.get(box.id);
    if (before === undefined || box.kind === "bar") continue;
    const wishOf = (pin: GraphPin): number | undefined => {
      for (const { a, b } of graph.links)
        for (const [own, far] of [
          [a, b],
          [b, a],
        ] as const) {
          if (own.box !== box.id || own.terminal !== pin.terminal) continue;
          const there = old.frame.boxes.get(far.box);
          if (there !== undefined) return pinX(there.box, there.x, far.terminal);
        }
      return undefined;
    };
    const kept = adopted(box, before, wishOf, taken);
    if (kept !== undefined)
      boxes.set(box.id, { box: kept, x: before.x, y: before.y, room: roomOf(kept, before.x, before.y) });
  }
  return boxes;
}
