import type { Point } from "../../route/grid.ts";
import type { Rect } from "../frame.ts";
import type { Graph } from "../graph.ts";
import { type Drawn, mapped } from "../mapped.ts";

/** A laid out drawing, or one of its zones. */
export interface Sheet extends Drawn {
  readonly graph: Graph;
}

/** A zone as drawn: its border and what it is called. */
export interface PlacedZone {
  readonly name: string;
  readonly room: Rect;
}

/** Between a zone's border and what is in it; names of bars may stand out at the left. */
const INSIDE = { left: 12, right: 12, top: 6, bottom: 3 };
const GAP = 3;
/** Width by height of a sheet of paper. */
const PAPER = 1.41;

/** Everything that is drawn, corner to corner. */
function extentOf({ frame, routed }: Sheet): Rect {
  const rooms = [...frame.boxes.values()].map((b) => b.room);
  const points = [...routed.wires.values()].flat();
  const bars = [...frame.bars.values()];
  const xs = [...rooms.flatMap((r) => [r.x0, r.x1]), ...points.map((p) => p.x), ...bars.flatMap((b) => [b.x0, b.x1])];
  const ys = [...rooms.flatMap((r) => [r.y0, r.y1]), ...points.map((p) => p.y), ...bars.map((b) => b.y)];
  if (xs.length === 0) return { x0: 0, y0: 0, x1: 0, y1: 0 };
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

/** Zones in shelves, in reading order, on a sheet nearest to the shape of paper. */
export function pack(
  sheets: readonly Sheet[],
  names: readonly string[],
): Sheet & { readonly zones: readonly PlacedZone[] } {
  const sizes = sheets.map((s) => {
    const e = extentOf(s);
    return {
      x: Math.floor(e.x0) - INSIDE.left,
      y: Math.floor(e.y0) - INSIDE.top,
      w: Math.ceil(e.x1) - Math.floor(e.x0) + INSIDE.left + INSIDE.right,
      h: Math.ceil(e.y1) - Math.floor(e.y0) + INSIDE.top + INSIDE.bottom,
    };
  });
  const area = sizes.reduce((sum, s) => sum + s.w * s.h, 0);
  let best: { readonly at: readonly Point[]; readonly size: number } | undefined;
  for (let f = 14; f <= 48; f++) {
    const tried = shelves(sizes, Math.max(Math.sqrt(area * PAPER) * (f / 20), ...sizes.map((s) => s.w)));
    if (best === undefined || tried.size < best.size) best = tried;
  }
  const moved = sheets.map((s, i) => {
    const [to, from] = [best?.at[i] ?? { x: 0, y: 0 }, sizes[i] ?? { x: 0, y: 0 }];
    const [dx, dy] = [to.x - from.x, to.y - from.y];
    return {
      graph: s.graph,
      ...mapped(
        s,
        (x) => x + dx,
        (y) => y + dy,
      ),
    };
  });
  return {
    graph: {
      boxes: new Map(moved.flatMap((s) => [...s.graph.boxes])),
      links: moved.flatMap((s) => s.graph.links),
    },
    frame: {
      boxes: new Map(moved.flatMap((s) => [...s.frame.boxes])),
      bars: new Map(moved.flatMap((s) => [...s.frame.bars])),
    },
    routed: {
      wires: new Map(moved.flatMap((s) => [...s.routed.wires])),
      leads: moved.flatMap((s) => s.routed.leads),
      pressed: moved.reduce((sum, s) => sum + s.routed.pressed, 0),
    },
    zones: sizes.map(({ w, h }, i) => {
      const { x, y } = best?.at[i] ?? { x: 0, y: 0 };
      return { name: `${i + 1} ${names[i] ?? ""}`, room: { x0: x, y0: y, x1: x + w, y1: y + h } };
    }),
  };
}

/** Each zone as high as it fits under what stands there already, and as far left. */
function shelves(sizes: readonly { readonly w: number; readonly h: number }[], width: number) {
  const placed: Rect[] = [];
  const at = sizes.map(({ w, h }): Point => {
    const xs = [0, ...placed.map((r) => r.x1 + GAP)].filter((x) => x === 0 || x + w <= width);
    const ys = [0, ...placed.map((r) => r.y1 + GAP)];
    const isFree = (x: number, y: number) =>
      placed.every((r) => x >= r.x1 + GAP || r.x0 >= x + w + GAP || y >= r.y1 + GAP || r.y0 >= y + h + GAP);
    const spots = ys.flatMap((y) => xs.filter((x) => isFree(x, y)).map((x): Point => ({ x, y })));
    const [spot = { x: 0, y: 0 }] = spots.sort((p, q) => p.y - q.y || p.x - q.x);
    placed.push({ x0: spot.x, y0: spot.y, x1: spot.x + w, y1: spot.y + h });
    return spot;
  });
  const [right, bottom] = [Math.max(...placed.map((r) => r.x1)), Math.max(...placed.map((r) => r.y1))];
  return { at, size: Math.max(right / PAPER, bottom) };
}
