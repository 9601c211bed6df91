import type { Box, Graph, Link } from "./graph.ts";

/** Row of each box, 0 on top. Bars stand between rows: theirs is the row above plus a half. */
export type Rows = ReadonlyMap<string, number>;

const side = (graph: Graph, end: Link["a"]): "top" | "bottom" | "bar" =>
  graph.boxes.get(end.box)?.kind === "bar"
    ? "bar"
    : (graph.boxes.get(end.box)?.pins.find((p) => p.terminal === end.terminal)?.side ?? "top");

interface Edge {
  readonly from: string;
  readonly to: string;
}

/**
 * Rows by electrical depth: a wire from a terminal that faces down to one that faces up puts the second below the first.
 * Relay to relay and box to box do not bind. Rings are broken where they close. All relays share a row.
 */
export function rowsOf(graph: Graph): Rows {
  const edges = downEdges(graph);
  const level = relayLevel(graph, depths(graph, edges, new Map()));
  const rank = depths(graph, edges, level);
  settle(graph, edges, rank);
  return compact(graph, rank);
}

/** Longest way from the top, with some ranks given. */
function depths(graph: Graph, edges: readonly Edge[], given: ReadonlyMap<string, number>): Map<string, number> {
  const into = new Map<string, Edge[]>();
  for (const e of edges) into.set(e.to, [...(into.get(e.to) ?? []), e]);
  const rank = new Map(given);
  const busy = new Set<string>();
  const depth = (id: string): number => {
    const known = rank.get(id);
    if (known !== undefined) return known;
    // A ring closes here: this edge does not bind.
    if (busy.has(id)) return -1;
    busy.add(id);
    let most = 0;
    for (const e of into.get(id) ?? []) {
      const above = depth(e.from);
      if (above >= 0) most = Math.max(most, above + step(graph, e.from, id));
    }
    busy.delete(id);
    rank.set(id, most);
    return most;
  };
  for (const id of graph.boxes.keys()) depth(id);
  return rank;
}

/** Bars take half a row. */
const step = (graph: Graph, from: string, to: string): number =>
  graph.boxes.get(from)?.kind === "bar" || graph.boxes.get(to)?.kind === "bar" ? 0.5 : 1;

function downEdges(graph: Graph): readonly Edge[] {
  const family = (id: string) => graph.boxes.get(id)?.part?.family;
  return graph.links.flatMap((l): Edge[] => {
    const [a, b] = [side(graph, l.a), side(graph, l.b)];
    const [x, y] = [l.a.box, l.b.box];
    if (x === y || (family(x) === family(y) && (family(x) === "relay" || family(x) === "module"))) return [];
    if (a === "bottom" && b !== "bottom") return [{ from: x, to: y }];
    if (b === "bottom" && a !== "bottom") return [{ from: y, to: x }];
    if (a === "bar" && b === "top") return [{ from: x, to: y }];
    if (b === "bar" && a === "top") return [{ from: y, to: x }];
    return [];
  });
}

/** One row for all relays: the one that six in ten of them are in or above. */
function relayLevel(graph: Graph, rank: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  const relays = [...graph.boxes.values()].filter((b) => b.part?.family === "relay").map((b) => b.id);
  const sorted = relays.map((r) => Math.ceil(rank.get(r) ?? 0)).sort((a, b) => a - b);
  const level = sorted[Math.floor((sorted.length - 1) * 0.6)] ?? 0;
  return new Map(relays.map((r) => [r, level]));
}

/** What nothing binds goes to its partners; what only feeds others comes down to just above them. */
function settle(graph: Graph, edges: readonly Edge[], rank: Map<string, number>): void {
  joinPartners(graph, edges, rank);
  for (const box of graph.boxes.values()) {
    if (box.part?.family === "relay" || box.part?.family === "battery") continue;
    const below = edges.filter((e) => e.from === box.id).map((e) => (rank.get(e.to) ?? 0) - step(graph, box.id, e.to));
    const isFed = edges.some((e) => e.to === box.id);
    const least = Math.min(...below);
    if (!isFed && below.length > 0 && least > (rank.get(box.id) ?? 0)) rank.set(box.id, least);
  }
}

/** What nothing binds (a diode across a coil) stands beside what it is wired to. */
function joinPartners(graph: Graph, edges: readonly Edge[], rank: Map<string, number>): void {
  for (const box of graph.boxes.values()) {
    if (box.kind !== "part" || edges.some((e) => e.from === box.id || e.to === box.id)) continue;
    const near = graph.links
      .flatMap((l) => (l.a.box === box.id ? [l.b.box] : l.b.box === box.id ? [l.a.box] : []))
      .filter((id) => graph.boxes.get(id)?.kind === "part");
    const ranks = near.map((id) => rank.get(id) ?? 0).sort((a, b) => a - b);
    const middle = ranks[ranks.length >> 1];
    if (middle !== undefined) rank.set(box.id, middle);
  }
}

/** Whole numbers for rows of boxes without gaps; bars keep a half. */
function compact(graph: Graph, rank: ReadonlyMap<string, number>): Rows {
  const rows = new Map<string, number>();
  const isBar = (b: Box) => b.kind === "bar";
  const used = [
    ...new Set([...graph.boxes.values()].filter((b) => !isBar(b)).map((b) => Math.ceil(rank.get(b.id) ?? 0))),
  ].sort((a, b) => a - b);
  for (const box of graph.boxes.values()) {
    const r = rank.get(box.id) ?? 0;
    if (isBar(box)) {
      const above = used.filter((u) => u <= r).length - 1;
      rows.set(box.id, Math.max(0, above) + 0.5);
    } else rows.set(box.id, used.indexOf(Math.ceil(r)));
  }
  return rows;
}
