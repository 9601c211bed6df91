import type { Point } from "../route/grid.ts";
import type { Routed } from "../route/route.ts";
import type { Frame } from "./frame.ts";

// How good a routed drawing is, before it has labels: the fewer crossings, bends and units, the better.

interface Run {
  readonly wire: number;
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

export interface Score {
  /** Wires over wires, and wires over bars. */
  readonly crossings: number;
  readonly bends: number;
  readonly length: number;
  readonly pressed: number;
}

export const total = ({ crossings, bends, length, pressed }: Score): number =>
  3 * crossings + bends + length / 40 + 60 * pressed;

export function scoreOf(frame: Frame, routed: Routed): Score {
  const flat: Run[] = [];
  const tall: Run[] = [];
  let [bends, length, n] = [0, 0, 0];
  // The wire on the lead to a dot turns there, unless one of the wires goes straight on.
  for (const { from, to, dots } of routed.leads) {
    const goesOn = [...routed.wires.values()].some((path) =>
      [
        [path[0], path[1]],
        [path.at(-1), path.at(-2)],
      ].some(
        ([p, q]) =>
          p?.x === to.x && p.y === to.y && q?.x === to.x && Math.sign(q.y - to.y) === Math.sign(to.y - from.y),
      ),
    );
    if (!goesOn && dots.length > 0) bends++;
  }
  for (const path of routed.wires.values()) {
    bends += Math.max(0, path.length - 2);
    for (let i = 1; i < path.length; i++) {
      const [a, b] = [path[i - 1] as Point, path[i] as Point];
      length += Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
      if (a.y === b.y) flat.push({ wire: n, at: a.y, from: Math.min(a.x, b.x), to: Math.max(a.x, b.x) });
      else tall.push({ wire: n, at: a.x, from: Math.min(a.y, b.y), to: Math.max(a.y, b.y) });
    }
    n++;
  }
  for (const bar of frame.bars.values()) flat.push({ wire: -1, at: bar.y, from: bar.x0, to: bar.x1 });
  let crossings = 0;
  for (const f of flat)
    for (const t of tall)
      if (f.wire !== t.wire && t.at > f.from && t.at < f.to && f.at > t.from && f.at < t.to) crossings++;
  return { crossings, bends, length, pressed: routed.pressed };
}
