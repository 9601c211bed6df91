import { type Machine, machineOf } from "../behave/machine.ts";
import type { Circuit, Element } from "../circuit/circuit.ts";
import type { Curve } from "../circuit/curve.ts";
import { piecesOf } from "../circuit/curve.ts";
import { type Patch, USUAL } from "../circuit/patch.ts";
import { patternOf } from "../solve/factor.ts";
import { type Solvable, solvable } from "../solve/network.ts";
import type { Choice } from "./choice.ts";
import { type CoilValues, coilValues, type Delays, delaysOf, LOSS_RATIO } from "./coil.ts";

/** Something that stores: the current of a winding, or the volts of a capacitor. */
export type Store =
  | {
      readonly kind: "winding";
      readonly element: number;
      readonly latch: number;
      readonly ohms: number;
      readonly lossOhms: number;
      /** Henries with the armature out and in. */
      readonly open: number;
      readonly closed: number;
      /** What its current is measured against, A. */
      readonly scale: number;
    }
  | {
      readonly kind: "capacitor";
      readonly element: number;
      readonly ohms: number;
      readonly farads: number;
      readonly scale: number;
    };

/** The circuit made ready for the transient: what stores, and what an opened contact does to a current that will not stop. */
export interface Rig {
  readonly circuit: Circuit;
  readonly machine: Machine;
  /** The machine's elements, then a clamp for each gate that can interrupt. Its values of stores change with each step. */
  readonly network: Solvable;
  readonly stores: readonly Store[];
  /** The store of each element, or -1. */
  readonly storeOf: Int32Array;
  /** Gates with a clamp: the clamp of `gates[k]` is element `circuit.elements.length + k`. */
  readonly gates: readonly number[];
  /** By latch, with those of the contacts that armatures carry. */
  readonly delays: ReadonlyMap<number, Delays>;
  /** By latch. */
  readonly coils: ReadonlyMap<number, CoilValues>;
}

export interface RigOptions {
  readonly choice: Choice;
  readonly patch?: Patch;
  /** Coils that were measured, by part: they take the place of what is fitted to the part's times. */
  readonly measured?: Readonly<Record<string, CoilValues>>;
}

/** Volts at which air between contacts breaks down at any distance: the minimum of Paschen's curve, 327 V (from memory). */
const CONTACT_VOLTS = 327;
/** Volts at which a driver's transistor gives way: from memory. A clamp that the loom gives acts before. */
const DRIVER_VOLTS = 60;
const CLAMP_OHMS = 1;

/** A rig's network is written on while it runs: one rig, one run. */
export function rigOf(circuit: Circuit, { choice, patch = USUAL, measured = {} }: RigOptions): Rig {
  const machine = machineOf(circuit, patch);
  const { network } = machine;
  const coils = new Map(
    circuit.coils.map((c) => [
      c.latch,
      measured[circuit.latches[c.latch]?.part ?? ""] ?? coilValues(circuit, c, choice),
    ]),
  );
  const stores: Store[] = [];
  for (const coil of circuit.coils)
    for (const element of coil.windings) {
      const ohms = 1 / (network.values.siemens[element] as number);
      // Inductance hangs on the winding as it was wound, not on how hot it is.
      const cold = (circuit.elements[element] as Element).ohms;
      const { openSeconds, closedSeconds } = coils.get(coil.latch) as CoilValues;
      stores.push({
        kind: "winding",
        element,
        latch: coil.latch,
        ohms,
        lossOhms: LOSS_RATIO * cold,
        open: openSeconds * cold,
        closed: closedSeconds * cold,
        scale: coil.ratedVolts / ohms,
      });
    }
  for (const { element, farads } of circuit.capacitances) {
    const ohms = 1 / (network.values.siemens[element] as number);
    stores.push({ kind: "capacitor", element, ohms, farads, scale: circuit.systemVolts });
  }
  const storeOf = new Int32Array(circuit.elements.length).fill(-1);
  stores.forEach((s, k) => {
    storeOf[s.element] = k;
  });
  const gates = circuit.elements.flatMap((e, i) => (interrupts(e) ? [i] : []));
  const delays = new Map(circuit.coils.flatMap((c) => delaysOf(circuit, c, coils.get(c.latch) as CoilValues)));
  return { circuit, machine, network: clamped(machine, gates), stores, storeOf, gates, delays, coils };
}

/** A contact, a blade or a driver; no fuse and no diode. */
const interrupts = (e: Element): boolean => e.class === "gate" && !e.oneWay && !e.protects && e.closed.length > 0;

function clamped({ circuit, network }: Machine, gates: readonly number[]): Solvable {
  const drivers = new Set(circuit.outputs.map((o) => o.element));
  const ends = [...circuit.elements, ...gates.map((g) => circuit.elements[g] as Element)];
  const pattern = patternOf(
    circuit.nodes.length,
    Uint8Array.from(circuit.nodes, (_, n) => (n === circuit.reference ? 1 : 0)),
    ends.map((e) => [e.a, e.b] as const),
  );
  const none = new Float64Array(gates.length);
  return solvable({ nodes: circuit.nodes, elements: ends }, pattern, {
    siemens: Float64Array.of(...network.values.siemens, ...none),
    emf: Float64Array.of(...network.values.emf, ...none),
    pieces: [
      ...network.values.pieces,
      ...gates.map((g) => piecesOf(clampCurve(drivers.has(g) ? DRIVER_VOLTS : CONTACT_VOLTS))),
    ],
  });
}

const clampCurve = (volts: number): Curve => ({
  volts: [-volts, volts],
  amps: [0, 0],
  slopeBelow: 1 / CLAMP_OHMS,
  slopeAbove: 1 / CLAMP_OHMS,
});
