import { Grid, type Point, type RouteEnd, type RouteJob, type Way } from "../../route/grid.ts";
import { jobsOf, type Lead, leadCells } from "../../route/jobs.ts";
import { corners, type Routed, straight } from "../../route/route.ts";
import { pinX } from "../columns.ts";
import type { Frame } from "../frame.ts";
import type { Graph, Link } from "../graph.ts";
import { cellsOf } from "./taken.ts";

// New wires among old ones. Old wires stay where they are; one gives way only if a new wire would find none.

const ALL: readonly Way[] = [0, 1, 2, 3];
const same = (p: Point | undefined, q: Point): boolean => p?.x === q.x && p.y === q.y;

/** Leads as the routes of a drawing meet them: the ends of the wires on one terminal are its dots. */
export function leadsOf(graph: Graph, frame: Frame, paths: ReadonlyMap<string, readonly Point[]>): readonly Lead[] {
  const ends = new Map<string, Point[]>();
  const leads: Lead[] = [];
  for (const { id, a, b } of graph.links) {
    const path = paths.get(id) ?? [];
    for (const [end, at] of [
      [a, path[0]],
      [b, path.at(-1)],
    ] as const) {
      const key = `${end.box}.${end.terminal}`;
      if (at !== undefined) ends.set(key, [...(ends.get(key) ?? []), at]);
    }
  }
  for (const { box, x, y } of frame.boxes.values())
    for (const pin of box.pins) {
      const met = ends.get(`${box.id}.${pin.terminal}`);
      const from = { x: pinX(box, x, pin.terminal), y: pin.side === "top" ? y : y + box.h };
      const isOut = (p: Point) => p.x === from.x && (pin.side === "top" ? p.y < from.y : p.y > from.y);
      // A part that was moved has left its routes: they end where it stood.
      if (met === undefined || !met.every(isOut)) continue;
      const far = [...new Set(met.map((p) => p.y))].sort((p, q) => Math.abs(p - from.y) - Math.abs(q - from.y));
      const points = far.map((at) => ({ x: from.x, y: at }));
      const to = points.at(-1) ?? from;
      leads.push({ terminal: `${box.id}.${pin.terminal}`, from, to, dots: met.length > 1 ? points : [] });
    }
  return leads;
}

/**
 * Routes for all wires of a drawing, given those of old ones.
 *
 * @param old routes that a drawing has, and the leads that they meet
 * @param stood whether both ends of a link are where the drawing has them
 */
export function reroute(graph: Graph, frame: Frame, old: Routed, stood: (link: Link) => boolean): Routed {
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
    const meets = (end: Link["a"], p: Point | undefined): boolean => {
      const bar = frame.bars.get(end.box);
      if (bar !== undefined) return p?.y === bar.y && p.x === bar.dots.get(link.id);
      const lead = leads.get(`${end.box}.${end.terminal}`);
      return lead !== undefined && [lead.to, ...lead.dots].some((d) => same(p, d));
    };
    if (stood(link) && path.length > 1 && meets(link.a, path[0]) && meets(link.b, path.at(-1))) {
      grid.lay(path, 1);
      paths.set(link.id, path);
    } else if (job !== undefined) open.push(job);
  });
  let pressed = 0;
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
    let path = best?.path ?? pushed(grid, paths, job, [...leads.values()]);
    if (path === undefined) {
      pressed++;
      path = grid.find(job, true)?.path ?? straight(job);
    }
    grid.lay(path, 1);
    paths.set(job.id, path);
  }
  return { wires: new Map([...paths].map(([id, p]) => [id, corners(p)])), leads: [...leads.values()], pressed };
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

/** Lays a wire over old ones and finds these another way; undefined, with all as it was, if that fails. */
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
  const laid: (readonly Point[])[] = [];
  const lay = (path: readonly Point[]) => {
    grid.lay(path, 1);
    laid.push(path);
  };
  for (const [, path] of hit) grid.lay(path, -1);
  const asBefore = () => {
    for (const path of laid) grid.lay(path, -1);
    for (const [, path] of hit) grid.lay(path, 1);
    return undefined;
  };
  const own = grid.find(job)?.path;
  if (own === undefined) return asBefore();
  lay(own);
  const endOf = (at: Point | undefined, next: Point | undefined): RouteEnd => {
    const [p, q] = [at as Point, next as Point];
    const lead = leads.find((l) => [l.to, ...l.dots].some((d) => same(d, p)));
    // At a bar a wire leaves as it did.
    const straightOn = ALL.filter((w) => (w % 2 === 0) === (p.y === q.y));
    return { at: p, ways: lead === undefined ? straightOn : waysFrom(lead) };
  };
  const moved = new Map<string, readonly Point[]>();
  for (const [id, path] of hit) {
    const again = grid.find({ id, a: endOf(path[0], path[1]), b: endOf(path.at(-1), path.at(-2)) })?.path;
    if (again === undefined) return asBefore();
    lay(again);
    moved.set(id, again);
  }
  for (const [id, path] of moved) paths.set(id, path);
  grid.lay(own, -1);
  return own;
}
