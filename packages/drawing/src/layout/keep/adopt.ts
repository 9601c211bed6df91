import type { DrawingText, PlaceText } from "@loomproof/netlist";
import { moduleHeight, pinPitch } from "../../symbols/module.ts";
import type { PlacedBar } from "../bars.ts";
import { pinX } from "../columns.ts";
import { type PlacedBox, roomOf } from "../frame.ts";
import type { Box, Graph, GraphPin } from "../graph.ts";
import { apart } from "../stretch.ts";
import type { Taken } from "./taken.ts";

// Boxes and bars where the drawing has them, and with them their pins. A wide box that gets a new pin finds a free place
// for it along the same edge.

type Places = NonNullable<DrawingText["places"]>;

export function barsIn(graph: Graph, places: Places): Map<string, PlacedBar> {
  const bars = new Map<string, PlacedBar>();
  for (const { id, kind } of graph.boxes.values()) {
    const place = places[id];
    if (kind !== "bar" || place === undefined) continue;
    const [x0, y] = place.at;
    const dots = new Map(Object.entries(place.dots ?? {}).map(([wire, dx]) => [wire, x0 + dx]));
    bars.set(id, { id, y, x0, x1: x0 + (place.length ?? 0), dots });
  }
  return bars;
}

/** Boxes in their places, those of wide ones with the pins that the drawing has. */
export function boxesIn(graph: Graph, places: Places): Map<string, PlacedBox> {
  const boxes = new Map<string, PlacedBox>();
  for (const box of graph.boxes.values()) {
    const place = places[box.id];
    if (place === undefined || box.kind === "bar") continue;
    const [x, y] = place.at;
    const now: Box = box.stretches ? pinned(box, place) : { ...box, mirrored: place.mirrored === true && box.mirrors };
    boxes.set(box.id, { box: now, x, y, room: roomOf(now, x, y) });
  }
  return boxes;
}

function pinned(box: Box, { above, below, width, height }: PlaceText): Box {
  if (above === undefined && below === undefined) return box;
  const pins = box.pins.flatMap((p): GraphPin[] => {
    const [top, bottom] = [above?.[p.terminal], below?.[p.terminal]];
    if (top !== undefined) return [{ ...p, x: top, side: "top" }];
    return bottom === undefined ? [] : [{ ...p, x: bottom, side: "bottom" }];
  });
  return { ...box, pins, w: Math.max(width ?? box.w, ...pins.map((p) => p.x + 2)), h: height ?? box.h };
}

/** Wide boxes with the pins that have come to them. */
export function withNewPins(
  graph: Graph,
  boxes: ReadonlyMap<string, PlacedBox>,
  taken: () => Taken,
): Map<string, PlacedBox> {
  return new Map(
    [...boxes].map(([id, placed]) => {
      const all = graph.boxes.get(id)?.pins ?? [];
      const added = all.filter((p) => !placed.box.pins.some((q) => q.terminal === p.terminal));
      return [id, added.length === 0 ? placed : grown(graph, boxes, placed, added, taken())];
    }),
  );
}

function grown(
  graph: Graph,
  boxes: ReadonlyMap<string, PlacedBox>,
  placed: PlacedBox,
  added: readonly GraphPin[],
  taken: Taken,
): PlacedBox {
  const { box, x: left, y } = placed;
  const pins = [...box.pins];
  const pitch = pinPitch([...pins, ...added].map((p) => p.terminal));
  let { w } = box;
  for (const pin of added) {
    const wish = wishOf(graph, boxes, box.id, pin.terminal) ?? left + w / 2;
    const beside = pins.filter((p) => p.side === pin.side);
    const isFree = (x: number) =>
      beside.every(
        (p) => Math.abs(p.x - x) >= (x < p.x ? apart({ ...pin, x }, p, pitch) : apart(p, { ...pin, x }, pitch)),
      ) && taken.isFree(ahead(placed, pin.side, x));
    const free = Array.from({ length: Math.max(0, w - 3) }, (_, i) => i + 2).filter(isFree);
    const [best] = free.sort((a, b) => Math.abs(left + a - wish) - Math.abs(left + b - wish) || a - b);
    // No room: the box grows to the right.
    pins.push({ ...pin, x: best ?? w });
    if (best === undefined) w += pitch;
  }
  const now = { ...box, pins, w, h: Math.max(box.h, heightOf(box, pins)) };
  return { ...placed, box: now, room: roomOf(now, left, y) };
}

function heightOf({ part }: Box, pins: readonly GraphPin[]): number {
  const names = new Map(part?.family === "module" ? part.definition.pins.map((p) => [p.pin, p.name]) : []);
  const along = (side: GraphPin["side"]) => pins.filter((p) => p.side === side).map((p) => names.get(p.terminal) ?? "");
  return moduleHeight(along("top"), along("bottom"));
}

/** Over or under what the pin is wired to. */
function wishOf(
  graph: Graph,
  boxes: ReadonlyMap<string, PlacedBox>,
  box: string,
  terminal: string,
): number | undefined {
  for (const { a, b } of graph.links)
    for (const [own, far] of [
      [a, b],
      [b, a],
    ] as const) {
      const there = boxes.get(far.box);
      if (own.box === box && own.terminal === terminal && there !== undefined)
        return pinX(there.box, there.x, far.terminal);
    }
  return undefined;
}

/** What must be free in front of a new pin. */
const ahead = ({ x, y, room, box }: PlacedBox, side: "top" | "bottom", at: number) =>
  side === "top"
    ? { x0: x + at, x1: x + at, y0: y - 4, y1: Math.ceil(room.y0) - 1 }
    : { x0: x + at, x1: x + at, y0: Math.floor(Math.max(room.y1, y + box.h)) + 1, y1: y + box.h + 4 };
