import type { Circuit } from "../circuit/circuit.ts";
import { type Curve, plainDiode } from "../circuit/curve.ts";
import { Door } from "../circuit/door.ts";
import { type Draft, emptyDraft, nodeAt } from "../circuit/draft.ts";

// Small circuits for tests, built through the one door. Node 0 is the reference.

export type TestElement =
  | { readonly kind: "resistor"; readonly a: number; readonly b: number; readonly ohms: number }
  | { readonly kind: "source"; readonly a: number; readonly b: number; readonly volts: number; readonly ohms: number }
  | { readonly kind: "diode"; readonly a: number; readonly b: number; readonly drop: number; readonly ohms: number }
  | { readonly kind: "curve"; readonly a: number; readonly b: number; readonly curve: Curve };

const name = (n: number): string => `N.${n}`;

/** A circuit of nodes `N.0` to `N.n`, in the order of the list. */
export function circuitOf(elements: readonly TestElement[]): Circuit {
  const draft: Draft = emptyDraft(new Set());
  const door = new Door(draft, { id: "N", label: "", family: "test", harm: "none" });
  nodeAt(draft, name(0));
  for (const e of elements) {
    const between = { from: name(e.a), to: name(e.b), says: e.kind };
    if (e.kind === "resistor") door.conductor({ ...between, ohms: e.ohms });
    else if (e.kind === "source") door.source({ ...between, emf: e.volts, ohms: e.ohms, feeds: true });
    else if (e.kind === "diode") door.diode({ ...between, curve: plainDiode(e.drop, e.ohms) });
    else door.load({ ...between, curve: e.curve }, undefined);
  }
  return {
    ...draft,
    wires: [],
    reference: nodeAt(draft, name(0)),
    never: [],
    systemVolts: 12,
    fixedSupply: true,
    openEnds: [],
    intents: [],
    sealClaims: [],
  };
}

/** Volts of node `n`. */
export const voltsAt = (circuit: Circuit, volts: Float64Array, n: number): number =>
  volts[circuit.nodeOf.get(name(n)) ?? 0] ?? 0;
