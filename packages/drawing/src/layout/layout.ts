import type { DrawingText, ResolvedLoom, Wire } from "@loomproof/netlist";
import { route } from "../route/route.ts";
import { frameOf } from "./frame.ts";
import { type Graph, graphOf, shownAs } from "./graph.ts";
import { keepLayout } from "./keep/keep.ts";
import { place } from "./place.ts";
import { type Potentials, potentialsOf } from "./potentials.ts";
import { rowsOf } from "./rows.ts";
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

/** Starts by size: on a big sheet one takes a second, and a second or third gains little on average. */
const startsFor = (symbols: number): number => (symbols < 40 ? 3 : 1);
/**
 * Measured on invented looms, one piece against zones, crossings (with those over bars) and bends: 52 parts 24 and 32
 * against 12 and 19; 53 parts 30 and 33 against 28 and 47; 68 parts 23 and 42 against 11 and 16; 84 parts 48 and 95
 * against 12 and 28. Below this a drawing in one piece is no worse, and needs no flags.
 */
const ZONES_FROM = 60;
/** Air between the rows, tried in turn until every wire finds its way. */
const AIRS = [0, 4, 8, 16, 32];
const HEATS = [60, 40, 90];

/**
 * Lays a loom out: rows by electrical depth, columns by annealing on an estimate of the drawing, module boxes stretched
 * over what they serve, wires routed on a grid. Several starts, the best drawing is kept. Big looms are divided into
 * zones. The same loom and seed give the same drawing.
 */
export function layout(loom: ResolvedLoom, options: LayoutOptions = {}): Placed {
  const { seed = 2, drawing, zonesFrom = ZONES_FROM } = options;
  if (drawing !== undefined && isDrawn(loom, drawing)) return keepLayout(loom, drawing);
  const potentials = potentialsOf(loom);
  const fresh = () => graphOf(loom, potentials);
  const symbols = loom.parts.filter((p) => p.family !== "splice" && p.family !== "ground-point").length;
  const starts = options.starts ?? startsFor(symbols);
  const rest = { loomWires: loom.wires, potentials };
  if (symbols < zonesFrom) return { ...bestOf(fresh, seed, starts), ...rest, zones: [], zoning: undefined };
  const zoning = zoningOf(loom);
  const sheets = zoning.names.map((_, z) => bestOf(() => split(fresh(), zoning)[z] as Graph, seed, starts));
  return { ...pack(sheets, zoning.names), ...rest, zoning };
}

/** Whether a drawing shows anything of a loom. A loom of which it shows nothing is laid out afresh. */
const isDrawn = (loom: ResolvedLoom, { places = {} }: DrawingText): boolean => {
  const drawn = new Set(Object.keys(places).map(shownAs));
  return loom.parts.some((p) => drawn.has(p.id));
};

function bestOf(graphs: () => Graph, seed: number, starts: number): Sheet {
  let best: { readonly sheet: Sheet; readonly cost: number } | undefined;
  for (let s = 0; s < starts; s++) {
    const sheet = attempt(graphs(), seed + s, HEATS[s % HEATS.length] ?? 40);
    const cost = total(scoreOf(sheet.frame, sheet.routed));
    if (best === undefined || cost < best.cost) best = { sheet, cost };
  }
  if (best === undefined) throw new Error("layout: no start was tried");
  return best.sheet;
}

function attempt(graph: Graph, seed: number, heat: number): Sheet {
  const rows = rowsOf(graph);
  const columns = place(graph, rows, { seed, heat });
  for (const air of AIRS) {
    const frame = frameOf(graph, rows, columns, air);
    const routed = route(graph, frame, air === AIRS.at(-1));
    if (routed !== undefined) return { graph, ...squeeze(frame, routed) };
  }
  throw new Error("layout: pressing left a wire out");
}
