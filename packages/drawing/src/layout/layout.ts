import type { ResolvedLoom, Wire } from "@loomproof/netlist";
import { type Routed, route } from "../route/route.ts";
import { type Frame, frameOf } from "./frame.ts";
import { type Graph, graphOf } from "./graph.ts";
import { place } from "./place.ts";
import { rowsOf } from "./rows.ts";
import { scoreOf, total } from "./score.ts";
import { squeeze } from "./squeeze.ts";

/** A loom with a place for everything, in units of 10 px. Plain data. */
export interface Placed {
  readonly graph: Graph;
  readonly frame: Frame;
  readonly routed: Routed;
  readonly loomWires: readonly Wire[];
}

export interface LayoutOptions {
  readonly seed?: number;
  /** How many starts are tried; the best is kept. */
  readonly starts?: number;
}

const STARTS = 4;
/** Air between the rows, tried in turn until every wire finds its way. */
const AIRS = [0, 4, 8, 16, 32];
const HEATS = [60, 40, 90, 30];

/**
 * Lays a loom out: rows by electrical depth, columns by annealing on an estimate of the drawing, module boxes stretched
 * over what they serve, wires routed on a grid. Several starts, the best drawing is kept. The same loom and seed give
 * the same drawing.
 */
export function layout(loom: ResolvedLoom, { seed = 2, starts = STARTS }: LayoutOptions = {}): Placed {
  let best: { readonly placed: Placed; readonly cost: number } | undefined;
  for (let s = 0; s < starts; s++) {
    const placed = attempt(loom, seed + s, HEATS[s % HEATS.length] ?? 40);
    const cost = total(scoreOf(placed.frame, placed.routed));
    if (best === undefined || cost < best.cost) best = { placed, cost };
  }
  if (best === undefined) throw new Error("layout: no start was tried");
  return best.placed;
}

function attempt(loom: ResolvedLoom, seed: number, heat: number): Placed {
  const graph = graphOf(loom);
  const rows = rowsOf(graph);
  const columns = place(graph, rows, { seed, heat });
  for (const air of AIRS) {
    const frame = frameOf(graph, rows, columns, air);
    const routed = route(graph, frame, air === AIRS.at(-1));
    if (routed !== undefined) return { graph, ...squeeze(frame, routed), loomWires: loom.wires };
  }
  throw new Error("layout: pressing left a wire out");
}
