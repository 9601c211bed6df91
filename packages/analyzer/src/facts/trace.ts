import { elementsAt } from "../behave/feed.ts";
import type { Point } from "../behave/machine.ts";
import type { Circuit, Element } from "../circuit/circuit.ts";

/** A way of the current: elements in its direction, and the nodes between them. */
export interface Trace {
  readonly elements: readonly number[];
  readonly nodes: readonly number[];
}

/** Node at which the current of `element` leaves it. */
const leaves = (e: Element, amps: number): number => (amps >= 0 ? e.b : e.a);
const enters = (e: Element, amps: number): number => (amps >= 0 ? e.a : e.b);

/** From the source to `element` and on to the return, each time along the largest current. Currents flow downhill. */
export function traceThrough(circuit: Circuit, point: Point, element: number): Trace {
  const e = circuit.elements[element] as Element;
  const amps = point.op.amps[element] ?? 0;
  const up = follow(circuit, point, enters(e, amps), "up");
  const down = follow(circuit, point, leaves(e, amps), "down");
  return {
    elements: [...up.elements.toReversed(), element, ...down.elements],
    nodes: [...up.nodes.toReversed(), ...down.nodes],
  };
}

function follow(circuit: Circuit, point: Point, start: number, way: "up" | "down"): Trace {
  const at = elementsAt(circuit);
  const elements: number[] = [];
  const nodes = [start];
  const seen = new Set(nodes);
  for (let node = start; ; ) {
    let best = -1;
    let most = 0;
    for (const i of at[node] ?? []) {
      const e = circuit.elements[i] as Element;
      const amps = point.op.amps[i] ?? 0;
      const end = way === "up" ? leaves(e, amps) : enters(e, amps);
      if (end !== node || Math.abs(amps) <= most || e.a === e.b) continue;
      best = i;
      most = Math.abs(amps);
    }
    if (best < 0) break;
    const e = circuit.elements[best] as Element;
    elements.push(best);
    if (e.class === "source") break;
    const amps = point.op.amps[best] ?? 0;
    node = way === "up" ? enters(e, amps) : leaves(e, amps);
    if (seen.has(node)) break;
    seen.add(node);
    nodes.push(node);
  }
  return { elements, nodes };
}

/** Wires through which the current of `element` comes or goes, down to a share of it: what a cut could open. */
export function wiresAround(circuit: Circuit, point: Point, element: number, share = 0.05): readonly number[] {
  const at = elementsAt(circuit);
  const least = share * Math.abs(point.op.amps[element] ?? 0);
  const wires = new Set<number>();
  for (const way of ["up", "down"] as const) {
    const e = circuit.elements[element] as Element;
    const amps = point.op.amps[element] ?? 0;
    const open = [way === "up" ? enters(e, amps) : leaves(e, amps)];
    const seen = new Set(open);
    for (let node = open.pop(); node !== undefined; node = open.pop())
      for (const i of at[node] ?? []) {
        const el = circuit.elements[i] as Element;
        const flow = point.op.amps[i] ?? 0;
        const end = way === "up" ? leaves(el, flow) : enters(el, flow);
        if (end !== node || Math.abs(flow) < least || el.class === "source") continue;
        if (el.owner.kind === "wire") wires.add(i);
        const next = way === "up" ? enters(el, flow) : leaves(el, flow);
        if (seen.has(next)) continue;
        seen.add(next);
        open.push(next);
      }
  }
  return [...wires].sort((a, b) => a - b);
}

/** Terminals along a trace, without inside nodes. */
export const terminalsOf = (circuit: Circuit, trace: Trace): readonly string[] =>
  trace.nodes.map((n) => circuit.nodes[n] ?? "").filter((name) => name.includes(".") && !name.includes("/"));
