import type { ResolvedLoom, Wire } from "@loomproof/netlist";
import { type Routed, route } from "../route/route.ts";
import { type Frame, frameOf } from "./frame.ts";
import { type Graph, graphOf } from "./graph.ts";
import { keepLayout } from "./keep/keep.ts";
import { place } from "./place.ts";
import { type Potentials, potentialsOf } from "./potentials.ts";
import { rowsOf } from "./rows.ts";
import { scoreOf, total } from "./score.ts";
import { squeeze } from "./squeeze.ts";

/** A loom with a place for everything, in units of 10 px. Plain data. */
export interface Placed {
  readonly graph: Graph;
  readonly frame: Frame;
  readonly routed: Routed;
  readonly loomWires: readonly Wire[];
  /** By which each part was turned. */
  readonly potentials: Potentials;
}

export interface LayoutOptions {
  readonly seed?: number;
  /** How many starts are tried; the best is kept. */
  readonly starts?: number;
  /** An earlier drawing of this loom: what it shows stays where it is. */
  readonly keep?: Placed;
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
export function layout(loom: ResolvedLoom, { seed = 2, starts = STARTS, keep }: LayoutOptions = {}): Placed {
  const kept = keep === undefined ? undefined : keepLayout(loom, keep);
  if (kept !== undefined) return kept;
  const potentials = potentialsOf(loom);
  let best: { readonly placed: Placed; readonly cost: number } | undefined;
  for (let s = 0; s < starts; s++) {
    const placed = attempt(loom, potentials, seed + s, HEATS[s % HEATS.length] ?? 40);
    const cost = total(scoreOf(placed.frame, placed.routed));
    if (best === undefined || cost < best.cost) best = { placed, cost };
  }
  if (best === undefined) throw new Error("layout: no start was tried");
  return best.placed;
}

function attempt(loom: ResolvedLoom, potentials: Potentials, seed: number, heat: number): Placed {
  const graph = graphOf(loom, potentials);
  const rows = rowsOf(graph);
  const columns = place(graph, rows, { seed, heat });
  for (const air of AIRS) {
    const frame = frameOf(graph, rows, columns, air);
    const routed = route(graph, frame, air === AIRS.at(-1));
    if (routed !== undefined) return { graph, ...squeeze(frame, routed), loomWires: loom.wires, potentials };
  }
  throw new Error("layout: pressing left a wire out");
}
