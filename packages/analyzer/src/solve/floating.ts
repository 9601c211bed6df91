import { netsOf } from "../circuit/nets.ts";
import type { Network } from "./network.ts";
import type { OperatingPoint } from "./operate.ts";

/** Below this conductance a chain no longer counts as holding a node: 1 MΩ. */
const HOLDING_SIEMENS = 1e-6;

/**
 * Which nodes are held by nothing: no chain of conducting elements of 1 MΩ or less joins them to a source. Decided by
 * union–find on the closed elements, never by a small conductance.
 */
export function floatingNodes(network: Network, closed: Uint8Array, point: OperatingPoint): Uint8Array {
  const { circuit } = network;
  const { siemens, pieces } = network.values;
  const nets = netsOf(circuit.nodes.length);
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
    nets.join(e.a, e.b);
  });
  circuit.elements.forEach((e, i) => {
    if (e.class === "source" && closed[i] === 1) held.add(nets.of(e.a)).add(nets.of(e.b));
  });
  held.add(nets.of(circuit.reference));
  return Uint8Array.from(circuit.nodes, (_, n) => (held.has(nets.of(n)) ? 0 : 1));
}
