import { isIn, type Rect } from "../layout/frame.ts";
import type { Scene, Spot } from "../scene/items.ts";

/** What is under a finger or a pointer. */
export type Hit =
  /** `PART.terminal`, and where it is drawn. */
  | { readonly kind: "terminal"; readonly id: string; readonly at: Spot }
  /** A part, by the box of the layout that was hit: a part may be drawn in several zones. */
  | { readonly kind: "part"; readonly id: string; readonly box: string; readonly room: Rect }
  /** A wire, and the spot of it that is nearest. */
  | { readonly kind: "wire"; readonly id: string; readonly at: Spot };

/** What stands at a spot of the sheet, px at 100 %: terminals before parts before wires, the nearest of each. */
export function hitAt(scene: Scene, spot: Spot, reach: number): Hit | undefined {
  return (
    terminalAt(scene, spot, reach) ?? partAt(scene, spot) ?? barAt(scene, spot, reach) ?? wireAt(scene, spot, reach)
  );
}

function nearest<T>(list: Iterable<T>, distance: (item: T) => number, reach: number): T | undefined {
  let best: { readonly item: T; readonly d: number } | undefined;
  for (const item of list) {
    const d = distance(item);
    if (d <= reach && (best === undefined || d < best.d)) best = { item, d };
  }
  return best?.item;
}

const apart = (p: Spot, q: Spot): number => Math.hypot(p.x - q.x, p.y - q.y);

/** Terminals, joints on their leads, and the dots of splices. */
function terminalAt(scene: Scene, spot: Spot, reach: number): Hit | undefined {
  const dot = nearest(scene.dots, (d) => apart(d.at, spot), reach);
  return dot && { kind: "terminal", id: terminalOf(dot.id), at: dot.at };
}

/** The terminal of a dot on the sheet. That of a splice names its wires too, and a splice has one terminal. */
export const terminalOf = (dot: string): string => (dot.includes(".") ? dot : `${dot.split(" ")[0]}.1`);

function partAt(scene: Scene, spot: Spot): Hit | undefined {
  const symbol = scene.symbols.find((s) => s.part !== undefined && isIn(s.room, spot));
  if (symbol?.part !== undefined) return { kind: "part", id: symbol.part, box: symbol.box, room: symbol.room };
  const text = scene.texts.find((t) => (t.role === "designation" || t.role === "name") && isIn(t.room, spot));
  const named = text && scene.symbols.find((s) => `${s.id} ${text.role}` === text.id);
  return named?.part === undefined ? undefined : { kind: "part", id: named.part, box: named.box, room: named.room };
}

function barAt(scene: Scene, { x, y }: Spot, reach: number): Hit | undefined {
  const bar = nearest(scene.bars, (b) => Math.hypot(Math.max(b.x0 - x, 0, x - b.x1), b.y - y), reach);
  if (bar === undefined) return undefined;
  return { kind: "part", id: bar.id, box: bar.box, room: { x0: bar.x0, x1: bar.x1, y0: bar.y, y1: bar.y } };
}

function wireAt(scene: Scene, spot: Spot, reach: number): Hit | undefined {
  const runs = scene.wires.flatMap((w) =>
    w.points.slice(1).map((b, i) => ({ id: w.id, half: w.width / 2, at: nearestOn(w.points[i] ?? b, b, spot) })),
  );
  const run = nearest(runs, ({ at, half }) => Math.max(0, apart(at, spot) - half), reach);
  return run && { kind: "wire", id: run.id, at: run.at };
}

/** The spot of a level or upright run that is nearest. */
const nearestOn = (a: Spot, b: Spot, { x, y }: Spot): Spot => ({
  x: Math.min(Math.max(x, Math.min(a.x, b.x)), Math.max(a.x, b.x)),
  y: Math.min(Math.max(y, Math.min(a.y, b.y)), Math.max(a.y, b.y)),
});
