import type { DrawingText, ResolvedLoom, Wire } from "@loomproof/netlist";
import { route } from "../route/route.ts";
import type { Columns } from "./columns.ts";
import { detached } from "./detached.ts";
import { frameOf } from "./frame.ts";
import { copyOf, type Graph, graphOf, shownAs } from "./graph.ts";
import { keepLayout } from "./keep/keep.ts";
import { estimated, refined, rough } from "./place.ts";
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
  /** The drawing of this loom, or of one much like it: what it shows stays where it is. */
  readonly drawing?: DrawingText | undefined;
  /** From how many parts on the sheet is divided into zones. */
  readonly zonesFrom?: number;
}

/** Starts differ far more than long runs gain: many are begun, the better half is finished, the best two are routed. */
const STARTS = 6;
const ROUTED = 2;
/**
 * Measured, one piece against zones, crossings (with those over bars) and bends: 53 parts 26 and 42 against 31 and 51;
 * 58 parts 44 and 55 against 24 and 43; earlier 68 parts 23 and 42 against 11 and 16; 84 parts 48 and 95 against 12 and
 * 28. Below this a drawing in one piece is no worse, and needs no flags.
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
  const { seed = 2, drawing, zonesFrom = ZONES_FROM } = options;
  if (drawing !== undefined && isDrawn(whole, drawing)) return keepLayout(whole, drawing);
  const loom = detached(whole);
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

/** Whether a drawing shows anything of a loom. A loom of which it shows nothing is laid out afresh. */
const isDrawn = (loom: ResolvedLoom, { places = {} }: DrawingText): boolean => {
  const drawn = new Set(Object.keys(places).map(shownAs));
  return loom.parts.some((p) => drawn.has(p.id));
};

/** The best of several starts: the estimate says which few are worth routing, the routed drawings which one is kept. */
function bestOf(graph: Graph, seed: number, starts: number): Sheet {
  const rows = rowsOf(graph);
  const draft = (own: Graph, columns: Columns, from: number): Draft => ({
    graph: own,
    rows,
    columns,
    seed: from,
    cost: estimated(own, rows, columns),
  });
  const begun = Array.from({ length: starts }, (_, s) => {
    const own = copyOf(graph);
    return draft(own, rough(own, rows, { seed: seed + s, heat: HEATS[s % HEATS.length] ?? 40 }), seed + s);
  });
  const finished = best(begun, Math.ceil(starts / 2)).map((d) =>
    draft(d.graph, refined(d.graph, rows, d.columns, d.seed), d.seed),
  );
  const [first, ...others] = best(finished, ROUTED).map(drawn);
  if (first === undefined) throw new Error("layout: no start was tried");
  const costOf = ({ frame, routed }: Sheet) => total(scoreOf(frame, routed));
  return others.reduce((p, q) => (costOf(q) < costOf(p) ? q : p), first);
}

interface Draft {
  readonly graph: Graph;
  readonly rows: Rows;
  readonly columns: Columns;
  readonly seed: number;
  /** By the estimate. */
  readonly cost: number;
}

const best = (drafts: readonly Draft[], count: number): readonly Draft[] =>
  drafts.toSorted((p, q) => p.cost - q.cost).slice(0, count);

function drawn({ graph, rows, columns }: Draft): Sheet {
  for (const air of AIRS) {
    const frame = frameOf(graph, rows, columns, air);
    const routed = route(graph, frame, air === AIRS.at(-1));
    if (routed !== undefined) return { graph, ...squeeze(frame, routed) };
  }
  throw new Error("layout: pressing left a wire out");
}
