import { elementsAt } from "../behave/feed.ts";
import type { Circuit, Element } from "../circuit/circuit.ts";

/**
 * The first of the elements that lie in series with this one, with nothing else at the joints between them. Opening one
 * or another of them is the same to all that the loom can do.
 */
export function firstInSeries(circuit: Circuit, element: number): number {
  const seen = new Set([element]);
  const open = [element];
  const watched = watchedNodes(circuit);
  for (let i = open.pop(); i !== undefined; i = open.pop()) {
    const { a, b } = circuit.elements[i] as Element;
    for (const n of [a, b]) {
      const at = elementsAt(circuit)[n] ?? [];
      if (at.length !== 2 || watched.has(n)) continue;
      for (const other of at)
        if (!seen.has(other) && joins(circuit.elements[other] as Element)) {
          seen.add(other);
          open.push(other);
        }
    }
  }
  return Math.min(...seen);
}

/** A load in between feels from which side it is cut off. */
const joins = (e: Element): boolean => e.class === "conductor" || e.class === "gate";

/** Nodes whose volts something looks at, or where a source stands. */
const watchedNodes = (circuit: Circuit): ReadonlySet<number> =>
  new Set([
    circuit.reference,
    ...circuit.poles.map((p) => p.node),
    ...circuit.latches.flatMap(({ drive }) => (drive.kind === "volts" ? [drive.a, drive.b] : [])),
  ]);
