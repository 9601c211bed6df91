import type { Loom } from "@loomproof/netlist";
import { onState } from "../behave/loads.ts";
import { type Machine, machineOf, pointOf } from "../behave/machine.ts";
import { settleToRest } from "../behave/settle.ts";
import { coldState, type State, stateOf } from "../behave/state.ts";
import type { Circuit } from "../circuit/circuit.ts";
import { compile } from "../circuit/compile.ts";
import { USUAL } from "../circuit/patch.ts";
import { relaysIn } from "../facts/words.ts";
import { floatingNodes } from "../solve/floating.ts";

/** What a meter would say everywhere, in one rest state. */
export interface Reading {
  /** Volts of each terminal over the reference; null where nothing holds it. */
  readonly volts: Readonly<Record<string, number | null>>;
  /** Amps of each wire from `from` to `to`. */
  readonly amps: Readonly<Record<string, number>>;
  readonly relaysIn: readonly string[];
  /** Parts with a load that is on. */
  readonly on: readonly string[];
}

/** One step of a walk: every rest state that it can end in. None if something never comes to rest. */
export interface Step {
  readonly readings: readonly Reading[];
}

/**
 * Connects the battery with all inputs as usual, then sets inputs step by step, letting all come to rest each time.
 * Inputs jump to where they are set, several at once; positions between are not passed.
 */
export function walk(loom: Loom, steps: readonly Readonly<Record<string, string>>[]): readonly Step[] {
  const circuit = compile(loom);
  const machine = machineOf(circuit, USUAL);
  let states: readonly State[] = [coldState(circuit)];
  return steps.map((set) => {
    const next = new Map<string, State>();
    for (const s of states)
      for (const r of settleToRest(machine, withInputs(circuit, s, set)).states) next.set(r.key, r);
    states = [...next.values()];
    return { readings: states.map((s) => readingAt(machine, s)) };
  });
}

function withInputs(circuit: Circuit, s: State, set: Readonly<Record<string, string>>): State {
  const stands = s.stands.slice();
  for (const [id, value] of Object.entries(set)) {
    const input = circuit.inputs.findIndex((i) => i.id === id);
    const stand = circuit.inputs[input]?.stands.indexOf(value) ?? -1;
    if (stand < 0) throw new Error(`walk: ${id} has no position ${value}`);
    stands[input] = stand;
  }
  return stateOf(stands, s.latches, s.ends);
}

function readingAt(machine: Machine, state: State): Reading {
  const { circuit } = machine;
  const point = pointOf(machine, state);
  const floating = floatingNodes(machine.network, point.closed, point.op);
  const terminals = circuit.nodes.flatMap((name, n) =>
    name.includes("/") ? [] : [[name, floating[n] === 1 ? null : (point.op.volts[n] ?? 0)] as const],
  );
  const on = circuit.loads.filter((l) => onState(machine, state, point, l) === "on").map((l) => l.part);
  return {
    volts: Object.fromEntries(terminals),
    amps: Object.fromEntries([...circuit.wireElement].map(([id, e]) => [id, point.op.amps[e] ?? 0])),
    relaysIn: relaysIn(circuit, state),
    on: [...new Set(on)],
  };
}
