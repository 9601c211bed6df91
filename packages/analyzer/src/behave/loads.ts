import type { Element, Load } from "../circuit/circuit.ts";
import { reached } from "./feed.ts";
import { type Machine, type Point, pointOf } from "./machine.ts";
import type { State } from "./state.ts";

export type On = "on" | "partly" | "off";

/** How much a load does at a point. Its latch, if it is judged by one, is read from the state. */
export function onState(machine: Machine, state: State, point: Point, load: Load): On {
  const e = machine.circuit.elements[load.element] as Element;
  const amps = Math.abs(point.op.amps[load.element] ?? 0);
  const volts = Math.abs((point.op.volts[e.a] ?? 0) - (point.op.volts[e.b] ?? 0));
  const { judge } = load;
  switch (judge.kind) {
    case "share":
      return grade(amps / judge.ratedAmps, judge.on, judge.partly);
    case "volts":
      return point.closed[load.element] === 1 ? grade(volts, judge.on, judge.partly) : "off";
    case "latch":
      if (amps === 0) return "off";
      if (state.latches[judge.latch] === 1) return "on";
      return amps > judge.partlyAbove ? "partly" : "off";
    case "latches":
      if (volts < judge.partlyVolts) return "off";
      return judge.latches.some((l) => state.latches[l] === 1) ? "on" : "partly";
    default:
      return judge satisfies never;
  }
}

const grade = (value: number, on: number, partly: number): On =>
  value >= on ? "on" : value >= partly ? "partly" : "off";

/** Which loads are asked for: one end has its designed feed, the other its designed return. */
export interface Asked {
  readonly feed: Uint8Array;
  readonly return: Uint8Array;
}

export function askedIn(machine: Machine, state: State): Asked {
  const { closed } = pointOf(machine, state);
  return { feed: reached(machine.circuit, closed, "feed"), return: reached(machine.circuit, closed, "return") };
}

export function isAskedFor(machine: Machine, asked: Asked, load: Load): boolean {
  const e = machine.circuit.elements[load.element] as Element;
  return (asked.feed[e.a] === 1 && asked.return[e.b] === 1) || (asked.feed[e.b] === 1 && asked.return[e.a] === 1);
}

/** Modules none of whose loads has its designed feed: what keeps them alive is what is being examined. */
export function unfedModules(machine: Machine, state: State): ReadonlySet<string> {
  const { feed } = askedIn(machine, state);
  const fed = new Set<string>();
  const all = new Set<string>();
  for (const load of machine.circuit.loads) {
    if (load.family !== "module") continue;
    all.add(load.part);
    const e = machine.circuit.elements[load.element] as Element;
    if (feed[e.a] === 1 || feed[e.b] === 1) fed.add(load.part);
  }
  return new Set([...all].filter((m) => !fed.has(m)));
}
