import { Grid, type Point, type RouteEnd, type RouteJob, type Way } from "../../route/grid.ts";
import { jobsOf, type Lead, leadCells } from "../../route/jobs.ts";
import { corners, type Routed } from "../../route/route.ts";
import type { Frame } from "../frame.ts";
import type { Graph, Link } from "../graph.ts";
import { cellsOf } from "./taken.ts";

// New wires among old ones. Old wires stay where they are; one gives way only if a new wire would find none.

const ALL: readonly Way[] = [0, 1, 2, 3];
const same = (p: Point | undefined, q: Point): boolean => p?.x === q.x && p.y === q.y;

export function reroute(graph: Graph, frame: Frame, old: Routed, isOld: (link: Link) => boolean): Routed | undefined {
  const { jobs, leads: fresh, rooms, bounds } = jobsOf(graph, frame);
  const before = new Map(old.leads.map((l) => [l.terminal, l]));
  const count = new Map<string, number>();
  for (const l of graph.links)
    for (const e of [l.a, l.b]) count.set(`${e.box}.${e.terminal}`, (count.get(`${e.box}.${e.terminal}`) ?? 0) + 1);
  const leads = new Map(
    fresh.map((l) => [l.terminal, keptLead(l, before.get(l.terminal), count.get(l.terminal) ?? 1)]),
  );
  const grid = new Grid(bounds, rooms);
  for (const bar of frame.bars.values()) {
    grid.bar(bar.x0, bar.x1, bar.y);
    for (const x of bar.dots.values()) grid.fill({ x, y: bar.y });
  }
  for (const lead of leads.values()) for (const p of leadCells(lead)) grid.fill(p);
  const paths = new Map<string, readonly Point[]>();
  const open: RouteJob[] = [];
  graph.links.forEach((link, i) => {
    const job = jobs[i];
    const path = cellsOf(old.wires.get(link.id) ?? []);
    const [first, last] = [path[0], path.at(-1)];
    const ends = [link.a, link.b].map((e) => leads.get(`${e.box}.${e.terminal}`));
    const meets = (lead: Lead | undefined, p: Point | undefined) =>
      lead === undefined || [lead.to, ...lead.dots].some((d) => same(p, d));
    if (isOld(link) && path.length > 1 && meets(ends[0], first) && meets(ends[1], last)) {
      grid.lay(path, 1);
      paths.set(link.id, path);
    } else if (job !== undefined) open.push(job);
  });
  for (const job of open) {
    const link = graph.links.find((l) => l.id === job.id);
    const options = (end: RouteEnd, e: Link["a"] | undefined): readonly RouteEnd[] => {
      const key = `${e?.box}.${e?.terminal}`;
      const lead = leads.get(key);
      if (lead === undefined || !before.has(key)) return [end];
      return (lead.dots.length > 0 ? lead.dots : [lead.to]).map((at) => ({ at, ways: waysFrom(lead) }));
    };
    let best: { readonly path: readonly Point[]; readonly cost: number } | undefined;
    for (const a of options(job.a, link?.a))
      for (const b of options(job.b, link?.b)) {
        const found = grid.find({ id: job.id, a, b });
        if (found !== undefined && (best === undefined || found.cost < best.cost)) best = found;
      }
    const path = best?.path ?? pushed(grid, paths, job, [...leads.values()]);
    if (path === undefined) return undefined;
    grid.lay(path, 1);
    paths.set(job.id, path);
  }
  return { wires: new Map([...paths].map(([id, p]) => [id, corners(p)])), leads: [...leads.values()], pressed: 0 };
}

/** Every way but back into the part. */
function waysFrom({ from, to }: Lead): readonly Way[] {
  const back: Way = to.y > from.y ? 3 : 1;
  return ALL.filter((w) => w !== back);
}

/** A lead as it was. Where a second wire joins, its end becomes a dot; where only one is left, the dots go. */
function keptLead(fresh: Lead, old: Lead | undefined, wires: number): Lead {
  if (old === undefined || !same(old.from, fresh.from)) return fresh;
  if (wires <= 1) return { ...old, dots: [] };
  const [first = old.to] = old.dots;
  if (old.dots.length === 0) return { ...old, dots: [first] };
  // Each dot has room for a wire at either side, the last for one more. Then one is put before them.
  if (wires <= 2 * old.dots.length + 1) return old;
  const before = { x: first.x, y: first.y + Math.sign(old.from.y - first.y) };
  return { ...old, dots: [before, ...old.dots] };
}

/** Lays a wire over old ones and finds these another way; undefined if that fails. */
function pushed(
  grid: Grid,
  paths: Map<string, readonly Point[]>,
  job: RouteJob,
  leads: readonly Lead[],
): readonly Point[] | undefined {
  const way = grid.find(job, true)?.path;
  if (way === undefined) return undefined;
  const cells = new Set(way.map((p) => `${p.x},${p.y}`));
  const hit = [...paths].filter(([, path]) => path.slice(1, -1).some((p) => cells.has(`${p.x},${p.y}`)));
  for (const [, path] of hit) grid.lay(path, -1);
  const own = grid.find(job)?.path;
  if (own === undefined) return undefined;
  grid.lay(own, 1);
  const endOf = (at: Point | undefined, next: Point | undefined): RouteEnd => {
    const [p, q] = [at as Point, next as Point];
    const lead = leads.find((l) => [l.to, ...l.dots].some((d) => same(d, p)));
    // At a bar a wire leaves as it did.
    const straight = ALL.filter((w) => (w % 2 === 0) === (p.y === q.y));
    return { at: p, ways: lead === undefined ? straight : waysFrom(lead) };
  };
  for (const [id, path] of hit) {
    const again = grid.find({ id, a: endOf(path[0], path[1]), b: endOf(path.at(-1), path.at(-2)) })?.path;
    if (again === undefined) return undefined;
    grid.lay(again, 1);
    paths.set(id, again);
  }
  grid.lay(own, -1);
  return own;
}
