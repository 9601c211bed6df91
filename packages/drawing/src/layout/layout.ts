import type { ResolvedLoom, Wire } from "@loomproof/netlist";
import { route } from "../route/route.ts";
import type { Columns } from "./columns.ts";
import { detached } from "./detached.ts";
import { frameOf } from "./frame.ts";
import { copyOf, type Graph, graphOf } from "./graph.ts";
import { keepLayout } from "./keep/keep.ts";
import { estimated, place } from "./place.ts";
import { type Potentials, potentialsOf } from "./potentials.ts";
import { type Rows, rowsOf } from "./rows.ts";
import { scoreOf, total } from "./score.ts";
import { squeeze } from "./squeeze.ts";
import { type Zoning, zoningOf } from "./zones/assign.ts";
import { type PlacedZone, pack, type Sheet } from "./zones/pack.ts";
import { split } from "./zones/split.ts";

/** A loom with a place for everything, in units of 10 px. Plain data. */
export interface Placed extends Sheet {
  readonly loomWires: readonly Wire[];
  /** By which each part was turned. */
  readonly potentials: Potentials;
  /** Where the sheet is divided, and what stands in which zone. */
  readonly zones: readonly PlacedZone[];
  readonly zoning: Zoning | undefined;
}

export interface LayoutOptions {
  readonly seed?: number;
  /** How many starts are tried; the best is kept. */
  readonly starts?: number;
  /** An earlier drawing of this loom: what it shows stays where it is. */
  readonly keep?: Placed;
  /** From how many parts on the sheet is divided into zones. */
  readonly zonesFrom?: number;
}

/** Starts differ far more than long runs gain: many short ones are tried, and the two that look best are routed. */
const STARTS = 6;
const ROUTED = 2;
/**
 * Measured on invented looms, one piece against zones, crossings (with those over bars) and bends: 52 parts 24 and 32
 * against 12 and 19; 53 parts 30 and 33 against 28 and 47; 68 parts 23 and 42 against 11 and 16; 84 parts 48 and 95
 * against 12 and 28. Below this a drawing in one piece is no worse, and needs no flags.
 */
const ZONES_FROM = 55;
/** Air between the rows, tried in turn until every wire finds its way. */
const AIRS = [0, 4, 8, 16, 32];
const HEATS = [60, 40, 90];

/**
 * Lays a loom out: rows by electrical depth, columns by annealing on an estimate of the drawing, module boxes stretched
 * over what they serve, wires routed on a grid. Several starts, the best drawing is kept. Big looms are divided into
 * zones. The same loom and seed give the same drawing.
 */
export function layout(whole: ResolvedLoom, options: LayoutOptions = {}): Placed {
  const { seed = 2, keep, zonesFrom = ZONES_FROM } = options;
  const loom = detached(whole);
  const kept = keep === undefined ? undefined : keepLayout(loom, keep);
  if (kept !== undefined) return kept;
  const potentials = potentialsOf(loom);
  const graph = graphOf(loom, potentials);
  const symbols = whole.parts.filter((p) => p.family !== "splice" && p.family !== "ground-point").length;
  const starts = options.starts ?? STARTS;
  const rest = { loomWires: loom.wires, potentials };
  if (symbols < zonesFrom) return { ...bestOf(graph, seed, starts), ...rest, zones: [], zoning: undefined };
  const zoning = zoningOf(loom);
  const sheets = split(graph, zoning).map((zone) => bestOf(zone, seed, starts));
  return { ...pack(sheets, zoning.names), ...rest, zoning };
}

/** The best of several starts: the estimate says which few are worth routing, the routed drawings which one is kept. */
function bestOf(graph: Graph, seed: number, starts: number): Sheet {
  const rows = rowsOf(graph);
  const drafts = Array.from({ length: starts }, (_, s): Draft => {
    const own = copyOf(graph);
    const columns = place(own, rows, { seed: seed + s, heat: HEATS[s % HEATS.length] ?? 40 });
    return { graph: own, rows, columns, cost: estimated(own, rows, columns) };
  });
  const [first, ...others] = drafts
    .toSorted((p, q) => p.cost - q.cost)
    .slice(0, ROUTED)
    .map(drawn);
  if (first === undefined) throw new Error("layout: no start was tried");
  const costOf = ({ frame, routed }: Sheet) => total(scoreOf(frame, routed));
  return others.reduce((best, other) => (costOf(other) < costOf(best) ? other : best), first);
}

interface Draft {
  readonly graph: Graph;
  readonly rows: Rows;
  readonly columns: Columns;
  readonly cost: number;
}

function drawn({ graph, rows, columns }: Draft): Sheet {
  for (const air of AIRS) {
    const frame = frameOf(graph, rows, columns, air);
    const routed = route(graph, frame, air === AIRS.at(-1));
    if (routed !== undefined) return { graph, ...squeeze(frame, routed) };
  }
  throw new Error("layout: pressing left a wire out");
}
