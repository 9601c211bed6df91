import type { Loom } from "@loomproof/netlist";
import { closedIn, machineOf } from "../behave/machine.ts";
import { coldState } from "../behave/state.ts";
import { ALWAYS } from "../circuit/circuit.ts";
import { compile } from "../circuit/compile.ts";
import { pieceAt } from "../circuit/curve.ts";
import { USUAL } from "../circuit/patch.ts";
import { type OperatingPoint, operate } from "../solve/operate.ts";

// Operating points one after another, for measuring their speed and for holding them against other solvers.

/** An element that conducts, straight at one point: `amps0 + siemens * volts` from `a` to `b`. */
export interface Straight {
  readonly a: number;
  readonly b: number;
  readonly siemens: number;
  readonly amps0: number;
}

export interface Points {
  readonly nodes: number;
  readonly reference: number;
  /** Elements that something moves: contacts, blades, drivers. */
  readonly gates: readonly number[];
  /** One byte an element, with everything as it is before power comes on. */
  readonly closed: Uint8Array;
  /** Diodes settled, Kirchhoff's law checked. @param start volts to begin from */
  readonly solve: (closed: Uint8Array, start?: Float64Array) => OperatingPoint;
  readonly straightAt: (closed: Uint8Array, point: OperatingPoint) => readonly Straight[];
}

export function pointsOf(loom: Loom): Points {
  const circuit = compile(loom);
  const machine = machineOf(circuit, USUAL);
  const { network } = machine;
  const { siemens, emf, pieces } = network.values;
  return {
    nodes: circuit.nodes.length,
    reference: circuit.reference,
    gates: circuit.elements.flatMap((e, i) => (e.closed === ALWAYS ? [] : [i])),
    closed: closedIn(machine, coldState(circuit)),
    solve: (closed, start) => operate(network.solvable, closed, start),
    straightAt: (closed, { volts }) =>
      circuit.elements.flatMap(({ a, b }, i): readonly Straight[] => {
        if (closed[i] === 0) return [];
        const list = pieces[i];
        const piece = list && pieceAt(list, (volts[a] ?? 0) - (volts[b] ?? 0));
        const g = piece?.siemens ?? siemens[i] ?? 0;
        return [{ a, b, siemens: g, amps0: piece?.amps0 ?? -g * (emf[i] ?? 0) }];
      }),
  };
}
