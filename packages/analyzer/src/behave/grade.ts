import type { Circuit, Element, Load } from "../circuit/circuit.ts";
import type { OperatingPoint } from "../solve/operate.ts";
import type { State } from "./state.ts";

export type On = "on" | "partly" | "off";

/** How much a load does at an operating point. Its latch, if it is judged by one, is read from the state. */
export function gradeOf(circuit: Circuit, closed: Uint8Array, op: OperatingPoint, state: State, load: Load): On {
  const e = circuit.elements[load.element] as Element;
  const amps = Math.abs(op.amps[load.element] ?? 0);
  const volts = Math.abs((op.volts[e.a] ?? 0) - (op.volts[e.b] ?? 0));
  return gradeBy(load, state, closed[load.element] === 1, amps, volts);
}

/** The same by what is felt at the load itself. */
export function gradeBy(load: Load, state: State, isClosed: boolean, amps: number, volts: number): On {
  const { judge } = load;
  switch (judge.kind) {
    case "share":
      return grade(amps / judge.ratedAmps, judge.on, judge.partly);
    case "volts":
      return isClosed ? grade(volts, judge.on, judge.partly) : "off";
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
