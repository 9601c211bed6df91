import type { ResolvedLoom, Wire } from "@loomproof/netlist";
import { type Routed, route } from "../route/route.ts";
import { type Frame, frameOf } from "./frame.ts";
import { type Graph, graphOf } from "./graph.ts";
import { type Columns, place } from "./place.ts";
import { type Rows, rowsOf } from "./rows.ts";
import { stretch } from "./stretch.ts";

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
const HEATS = [40, 90, 15, 60];

/**
 * Lays a loom out: rows by electrical depth, columns by annealing on an estimate of the drawing, module boxes stretched
 * over what they serve, wires routed on a grid. The same loom and seed give the same drawing.
 */
export function layout(loom: ResolvedLoom, { seed = 2, starts = STARTS }: LayoutOptions = {}): Placed {
  let best:
    | { readonly graph: Graph; readonly rows: Rows; readonly columns: Columns; readonly cost: number }
    | undefined;
  for (let s = 0; s < starts; s++) {
    const graph = graphOf(loom);
    const rows = rowsOf(graph);
    const moves = Math.max(3000, Math.min(9000, 130 * graph.boxes.size));
    const heat = HEATS[s % HEATS.length] ?? 40;
    let { columns } = place(graph, rows, undefined, { seed: seed + s, moves, heat });
    stretch(graph, columns);
    ({ columns } = place(graph, rows, columns, { seed: seed + s + 100, moves: moves >> 1, heat: 6 }));
    stretch(graph, columns);
    const last = place(graph, rows, columns, { seed: seed + s + 200, moves: moves >> 1, heat: 2 });
    if (best === undefined || last.cost < best.cost) best = { graph, rows, columns: last.columns, cost: last.cost };
  }
  if (best === undefined) throw new Error("layout: no start was tried");
  for (const air of AIRS) {
    const frame = frameOf(best.graph, best.rows, best.columns, air);
    const routed = route(best.graph, frame, air === AIRS.at(-1));
    if (routed !== undefined) return { graph: best.graph, frame, routed, loomWires: loom.wires };
  }
  throw new Error("layout: pressing left a wire out");
}
