import type { PlacedBar } from "../bars.ts";
import { pinX } from "../columns.ts";
import { isIn, type PlacedBox, type Rect, roomOf } from "../frame.ts";
import type { Box, Graph, Link } from "../graph.ts";
import { freeSpot, type Pull, type Spot } from "./spot.ts";
import { onAsking, type Taken } from "./taken.ts";

// Places for what is new: parts, ground marks and bars, each where it is nearest to what it is wired to.

const DOT_PITCH = 2;

export interface Arrived {
  readonly boxes: Map<string, PlacedBox>;
  readonly bars: Map<string, PlacedBar>;
}

const linksOf = (graph: Graph, id: string) =>
  graph.links.flatMap((l): { readonly own: Link["a"]; readonly far: Link["b"] }[] => [
    ...(l.a.box === id ? [{ own: l.a, far: l.b }] : []),
    ...(l.b.box === id ? [{ own: l.b, far: l.a }] : []),
  ]);

function pullsOf(graph: Graph, box: Box, { boxes, bars }: Arrived): readonly Pull[] {
  return linksOf(graph, box.id).flatMap(({ own, far }): Pull[] => {
    const pin = box.pins.find((p) => p.terminal === own.terminal);
    const at = { dx: pinX(box, 0, own.terminal), dy: pin?.side === "bottom" ? box.h : 0, side: pin?.side };
    const bar = bars.get(far.box);
    if (bar !== undefined) return [{ ...at, x0: bar.x0, x1: bar.x1, y: bar.y }];
    const there = boxes.get(far.box);
    const farPin = there?.box.pins.find((p) => p.terminal === far.terminal);
    if (there === undefined || farPin === undefined) return [];
    const x = pinX(there.box, there.x, far.terminal);
    return [{ ...at, x0: x, x1: x, y: farPin.side === "top" ? there.y : there.y + there.box.h }];
  });
}

/**
 * Puts everything that is new somewhere free.
 *
 * @param takenWith what is taken for a box, which may have to stay in its zone; without a box, everywhere
 */
export function arrive(graph: Graph, old: Arrived, takenWith: (now: Arrived, box?: string) => Taken): Arrived {
  const now: Arrived = { boxes: new Map(old.boxes), bars: new Map(old.bars) };
  const isPlaced = (id: string) => now.boxes.has(id) || now.bars.has(id);
  const waiting = [...graph.boxes.values()].filter((b) => !isPlaced(b.id));
  while (waiting.length > 0) {
    const known = (b: Box) => linksOf(graph, b.id).filter((l) => isPlaced(l.far.box)).length;
    waiting.sort((a, b) => known(b) - known(a) || (a.id < b.id ? -1 : 1));
    const box = waiting.shift() as Box;
    const taken = takenWith(now, box.id);
    const links = linksOf(graph, box.id);
    const length = Math.max(1, links.length - 1) * DOT_PITCH;
    const room: Rect = box.kind === "bar" ? { x0: -1, x1: length + 1, y0: -1, y1: 1 } : roomOf(box, 0, 0);
    const pulls = () => {
      const own = pullsOf(graph, box, now);
      return own.length > 0 ? own : [under(taken)];
    };
    const spot =
      bestSpot(box, () => freeSpot(taken, room, pulls())) ??
      bestSpot(box, () => freeSpot(takenWith(now), room, pulls())) ??
      beside(now, box);
    if (box.kind === "bar")
      now.bars.set(box.id, { id: box.id, y: spot.y, x0: spot.x, x1: spot.x + length, dots: new Map() });
    else now.boxes.set(box.id, { box, x: spot.x, y: spot.y, room: roomOf(box, spot.x, spot.y) });
  }
  const taken = onAsking(() => takenWith(now));
  for (const bar of now.bars.values()) now.bars.set(bar.id, dotted(graph, bar, now, taken));
  return now;
}

/** What nothing is wired to stands under the drawing, at its left. */
const under = ({ content }: Taken): Pull => ({
  dx: 0,
  dy: 0,
  side: undefined,
  x0: content.x0,
  x1: content.x0,
  y: content.y1,
});

/** Right of everything: where there is always room. */
function beside({ boxes, bars }: Arrived, box: Box): { readonly x: number; readonly y: number } {
  const xs = [...[...boxes.values()].map((b) => b.room.x1), ...[...bars.values()].map((b) => b.x1), 0];
  return { x: Math.ceil(Math.max(...xs)) + Math.ceil(box.left) + 4, y: 0 };
}

/** As it is, or as in a mirror where that is cheaper. */
function bestSpot(box: Box, find: () => Spot | undefined): Spot | undefined {
  const plain = find();
  if (!box.mirrors || plain === undefined) return plain;
  box.mirrored = !box.mirrored;
  const turned = find();
  if (turned !== undefined && turned.cost < plain.cost) return turned;
  box.mirrored = !box.mirrored;
  return plain;
}

/** A bar with a dot for each of its wires; old wires keep theirs. */
function dotted(graph: Graph, bar: PlacedBar, { boxes, bars }: Arrived, taken: () => Taken): PlacedBar {
  const wires = graph.links.filter((l) => l.a.box === bar.id || l.b.box === bar.id);
  const dots = new Map([...bar.dots].filter(([wire]) => wires.some((l) => l.id === wire)));
  const rooms = [...boxes.values()].map((b) => b.room);
  let { x0, x1 } = bar;
  for (const { id, a, b } of wires) {
    if (dots.has(id)) continue;
    const far = a.box === bar.id ? b : a;
    const there = boxes.get(far.box);
    const other = bars.get(far.box);
    const wish =
      there !== undefined
        ? pinX(there.box, there.x, far.terminal)
        : other === undefined
          ? x0
          : (other.x0 + other.x1) / 2;
    const isUp = (there?.y ?? other?.y ?? 0) < bar.y;
    const isOpen = (x: number) =>
      taken().isFree({ x0: x, x1: x, y0: isUp ? bar.y - 2 : bar.y + 1, y1: isUp ? bar.y - 1 : bar.y + 2 });
    const free = (x: number) => {
      // A splice put on a wire is one dot, which has room on its free sides.
      if (x0 === x1 && dots.size > 0 && x === x0) return isOpen(x);
      const isApart = [...dots.values()].every((d) => Math.abs(d - x) >= DOT_PITCH);
      // Nor does the bar reach into a part.
      return isApart && !rooms.some((r) => isIn(r, { x, y: bar.y })) && (bar.dots.size === 0 || isOpen(x));
    };
    const inside = Array.from({ length: x1 - x0 + 1 }, (_, i) => x0 + i);
    const beyond = [x1 + 2, x0 - 2, x1 + 4, x0 - 4, x1 + 6, x0 - 6];
    const ordered = [...inside.sort((p, q) => Math.abs(p - wish) - Math.abs(q - wish) || p - q), ...beyond];
    const at = ordered.find(free) ?? x1 + DOT_PITCH;
    dots.set(id, at);
    x0 = Math.min(x0, at);
    x1 = Math.max(x1, at);
  }
  const all = [...dots.values()];
  // Where a wire has gone the bar does not reach any more.
  const isShorter = dots.size > 0 && [...bar.dots.keys()].some((wire) => !dots.has(wire));
  return { id: bar.id, y: bar.y, x0: isShorter ? Math.min(...all) : x0, x1: isShorter ? Math.max(...all) : x1, dots };
}
