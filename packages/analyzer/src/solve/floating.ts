import type { Network } from "./network.ts";
import type { OperatingPoint } from "./operate.ts";

/** Below this conductance a chain no longer counts as holding a node: 1 MΩ. */
const HOLDING_SIEMENS = 1e-6;

/**
 * Which nodes are held by nothing: no chain of conducting elements of 1 MΩ or less joins them to a source. Decided by
 * union–find on the closed elements, never by a small conductance.
 */
export function floatingNodes(network: Network, closed: Uint8Array, point: OperatingPoint): Uint8Array {
  const { circuit, siemens, pieces } = network;
  const parent = Int32Array.from(circuit.nodes, (_, n) => n);
  const root = (n: number): number => {
    let r = n;
    while (parent[r] !== r) r = parent[r] as number;
    while (parent[n] !== r) {
      const next = parent[n] as number;
      parent[n] = r;
      n = next;
    }
    return r;
  };
  const held = new Set<number>();
  circuit.elements.forEach((e, i) => {
    if (closed[i] === 0) return;
    const v = (point.volts[e.a] as number) - (point.volts[e.b] as number);
    const list = pieces[i];
    const g =
      list === undefined
        ? (siemens[i] as number)
        : Math.max(list.find((p) => v <= p.to)?.siemens ?? 0, Math.abs((point.amps[i] as number) / (v || 1)));
    if (g < HOLDING_SIEMENS) return;
    parent[root(e.a)] = root(e.b);
  });
  circuit.elements.forEach((e, i) => {
    if (e.class === "source" && closed[i] === 1) held.add(root(e.a)).add(root(e.b));
  });
  held.add(root(circuit.reference));
  return Uint8Array.from(circuit.nodes, (_, n) => (held.has(root(n)) ? 0 : 1));
}
