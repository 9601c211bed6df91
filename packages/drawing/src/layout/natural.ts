import { naturalOrder } from "@loomproof/netlist";
import type { Columns } from "./columns.ts";
import type { Box, Graph, GraphPin } from "./graph.ts";
import type { Rows } from "./rows.ts";

// Parts that are alike and hang on the same things (injectors, lamps, sensors) stand in the order of their
// designations, and the pins that serve them with them.

/** What a part hangs on: for each pin the bar or box at its other end; undefined if it is not alone there. */
function hangsOn(graph: Graph, box: Box): { readonly key: string; readonly pins: readonly GraphPin[] } | undefined {
  const words: string[] = [];
  const pins: GraphPin[] = [];
  for (const pin of box.pins) {
    const links = graph.links.filter(
      (l) =>
        (l.a.box === box.id && l.a.terminal === pin.terminal) || (l.b.box === box.id && l.b.terminal === pin.terminal),
    );
    if (links.length > 1) return undefined;
    const [link] = links;
    if (link === undefined) {
      words.push(`${pin.side} ${pin.tail === undefined ? "-" : "ground"}`);
      continue;
    }
    const far = link.a.box === box.id ? link.b : link.a;
    const other = graph.boxes.get(far.box);
    if (other === undefined) return undefined;
    words.push(`${pin.side} ${other.id}`);
    if (other.kind === "bar") continue;
    const at = other.pins.find((p) => p.terminal === far.terminal);
    if (!other.stretches || at === undefined) return undefined;
    words.push(at.side);
    pins.push(at);
  }
  const { part } = box;
  return { key: [part?.family, part?.kind, box.mirrored, box.w, ...words].join(" | "), pins };
}

export function naturalColumns(graph: Graph, rows: Rows, columns: Columns): void {
  const groups = new Map<string, { readonly box: Box; readonly pins: readonly GraphPin[] }[]>();
  for (const box of graph.boxes.values()) {
    if (box.kind !== "part" || box.pins.every((p) => !p.wired)) continue;
    const found = hangsOn(graph, box);
    if (found === undefined) continue;
    const key = `${rows.get(box.id)} ${found.key}`;
    groups.set(key, [...(groups.get(key) ?? []), { box, pins: found.pins }]);
  }
  for (const group of groups.values()) {
    const byPlace = group.toSorted((p, q) => (columns.get(p.box.id) ?? 0) - (columns.get(q.box.id) ?? 0));
    const places = byPlace.map(({ box, pins }) => ({ x: columns.get(box.id) ?? 0, pins: pins.map((p) => p.x) }));
    const byName = group.toSorted((p, q) => naturalOrder(p.box.id, q.box.id));
    byName.forEach(({ box, pins }, i) => {
      columns.set(box.id, places[i]?.x ?? 0);
      pins.forEach((p, k) => {
        p.x = places[i]?.pins[k] ?? p.x;
      });
    });
  }
}
