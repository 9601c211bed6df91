import type { Box, Graph, Link } from "./graph.ts";

/** Row of each box, 0 on top. Bars stand between rows: theirs is the row above plus a half, −0.5 over all rows. */
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
 * Relay to relay does not bind. Rings are broken where they close. All relays share a row.
 */
export function rowsOf(graph: Graph): Rows {
  const edges = downEdges(graph);
  const level = relayLevel(graph, depths(graph, edges, new Map()));
  const rank = depths(graph, edges, level);
  settle(graph, edges, rank);
  lowerBars(graph, rank);
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
    if (x === y || (family(x) === "relay" && family(y) === "relay")) return [];
    if (a === "bottom" && b !== "bottom") return [{ from: x, to: y }];
    if (b === "bottom" && a !== "bottom") return [{ from: y, to: x }];
    if (a === "bar" && b === "top") return [{ from: x, to: y }];
    if (b === "bar" && a === "top") return [{ from: y, to: x }];
    return [];
  });
}

/**
 * One row for relays: the one that six in ten of them are in or above. Deeper ones stay where they are; one that feeds
 * others stands above them, else its wires would loop round it.
 */
function relayLevel(graph: Graph, depth: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  const relays = [...graph.boxes.values()].filter((b) => b.part?.family === "relay").map((b) => b.id);
  const own = (id: string) => Math.ceil(depth.get(id) ?? 0);
  const sorted = relays.map(own).sort((a, b) => a - b);
  const level = sorted[Math.floor((sorted.length - 1) * 0.6)] ?? 0;
  const feeds = new Map(relays.map((r) => [r, relaysFedBy(graph, r)]));
  const above = (id: string, seen: readonly string[]): number =>
    Math.max(0, ...(feeds.get(id) ?? []).filter((r) => !seen.includes(r)).map((r) => 1 + above(r, [...seen, id])));
  const rank = new Map(relays.map((r) => [r, Math.max(own(r), level - Math.min(MOST_ABOVE, above(r, [r])))]));
  // What hangs on a relay that stands deep comes below it.
  for (let round = 0; round < MOST_ABOVE; round++)
    for (const [r, fed] of feeds)
      for (const below of fed) {
        if (feeds.get(below)?.includes(r) === true) continue;
        rank.set(below, Math.max(rank.get(below) ?? 0, (rank.get(r) ?? 0) + 1));
      }
  return rank;
}
const MOST_ABOVE = 2;

/** Relays whose upper terminals hang, by wire or through joints, on a lower terminal of this one. */
function relaysFedBy(graph: Graph, relay: string): readonly string[] {
  const fed = new Set<string>();
  const seen = new Set<string>();
  const open = graph.links.flatMap((l) =>
    [[l.a, l.b] as const, [l.b, l.a] as const].flatMap(([own, far]) =>
      own.box === relay && side(graph, own) === "bottom" ? [far] : [],
    ),
  );
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    const box = graph.boxes.get(at.box);
    if (box?.part?.family === "relay" && box.id !== relay && side(graph, at) === "top") fed.add(box.id);
    if (box?.kind !== "bar" || seen.has(box.id)) continue;
    seen.add(box.id);
    for (const l of graph.links) {
      if (l.a.box === box.id) open.push(l.b);
      if (l.b.box === box.id) open.push(l.a);
    }
  }
  return [...fed];
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

/** A bar that feeds more wires than feed it comes down to just above the first of them. */
function lowerBars(graph: Graph, rank: Map<string, number>): void {
  for (const bar of graph.boxes.values()) {
    if (bar.kind !== "bar") continue;
    const ends = graph.links.flatMap((l) => (l.a.box === bar.id ? [l.b] : l.b.box === bar.id ? [l.a] : []));
    const facing = (way: "top" | "bottom") =>
      ends.filter((e) => side(graph, e) === way).map((e) => rank.get(e.box) ?? 0);
    const [fed, feeding] = [facing("top"), facing("bottom")];
    const lowest = Math.min(...fed) - 0.5;
    if (fed.length > feeding.length && lowest > (rank.get(bar.id) ?? 0)) rank.set(bar.id, lowest);
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
      rows.set(box.id, above + 0.5);
    } else rows.set(box.id, used.indexOf(Math.ceil(r)));
  }
  return rows;
}
