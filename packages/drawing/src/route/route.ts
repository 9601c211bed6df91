import type { Frame } from "../layout/frame.ts";
import type { Graph } from "../layout/graph.ts";
import { Grid, type Point, type RouteJob } from "./grid.ts";
import { jobsOf, type Lead, leadCells } from "./jobs.ts";

export interface Routed {
  /** Corners of each wire between its two leads, by wire id. */
  readonly wires: ReadonlyMap<string, readonly Point[]>;
  readonly leads: readonly Lead[];
  /** Wires that found no way of their own and are drawn over others. */
  readonly pressed: number;
}

const ATTEMPTS = 12;
const POLISH = 3;

/**
 * Routes every wire on the unit grid: no wire on a wire, none through a part. A wire that finds no way goes first the
 * next time; undefined if that does not help, and the rows want more air. With `pressing` what still finds no way is
 * drawn over what is in its way: better a crowded drawing than none.
 */
export function route(graph: Graph, frame: Frame, pressing = false): Routed | undefined {
  const { jobs, leads, rooms, bounds } = jobsOf(graph, frame);
  const span = (j: RouteJob) =>
    Math.abs(j.a.at.x - j.b.at.x) + Math.abs(j.a.at.y - j.b.at.y) + (j.a.at.x !== j.b.at.x ? 15 : 0);
  let order = jobs.toSorted((p, q) => span(p) - span(q) || (p.id < q.id ? -1 : 1));
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    const grid = new Grid(bounds, rooms);
    for (const bar of frame.bars.values()) {
      grid.bar(bar.x0, bar.x1, bar.y);
      for (const x of bar.dots.values()) grid.fill({ x, y: bar.y });
    }
    for (const lead of leads) for (const p of leadCells(lead)) grid.fill(p);
    const paths = new Map<string, readonly Point[]>();
    const failed: RouteJob[] = [];
    for (const job of order) {
      const found = grid.find(job);
      if (found === undefined) {
        failed.push(job);
        continue;
      }
      grid.lay(found.path, 1);
      paths.set(job.id, found.path);
    }
    const pressed = pressing && attempt === ATTEMPTS - 1 ? failed.length : 0;
    if (pressed > 0)
      for (const job of failed.splice(0)) {
        const path = grid.find(job, true)?.path ?? straight(job);
        grid.lay(path, 1);
        paths.set(job.id, path);
      }
    if (failed.length === 0) {
      polish(grid, order, paths);
      return { wires: new Map([...paths].map(([id, p]) => [id, corners(p)])), leads, pressed };
    }
    order = [...failed, ...order.filter((j) => !failed.includes(j))];
  }
  return undefined;
}

/** Across, then down: for an end that no way leads to at all. */
export const straight = ({ a, b }: RouteJob): readonly Point[] => [a.at, { x: b.at.x, y: a.at.y }, b.at];

/** Each wire alone against all the others: taken up and laid again where it is cheapest now. */
function polish(grid: Grid, order: readonly RouteJob[], paths: Map<string, readonly Point[]>): void {
  for (let round = 0; round < POLISH; round++)
    for (const job of round % 2 === 0 ? order.toReversed() : order) {
      const old = paths.get(job.id);
      if (old === undefined) continue;
      grid.lay(old, -1);
      const path = grid.find(job)?.path ?? old;
      grid.lay(path, 1);
      paths.set(job.id, path);
    }
}

/** Ends and bends of a path of cells. */
export function corners(path: readonly Point[]): readonly Point[] {
  return path.filter((_, i) => {
    const [before, after] = [path[i - 1], path[i + 1]];
    return before === undefined || after === undefined || (before.x !== after.x && before.y !== after.y);
  });
}
