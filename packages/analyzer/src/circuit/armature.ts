import type { Span } from "@loomproof/netlist";
import { type Coil, type Logic, whileOn } from "./circuit.ts";
import type { Door } from "./door.ts";
import { type SheetTimes, type Sides, travelOf } from "./travel.ts";

// The armature of a relay or a solenoid: its coils, how it moves, and the contacts that it carries.

interface Winding {
  readonly from: string;
  readonly to: string;
  readonly ohms: number;
  readonly turns: number;
}

interface ArmatureSpec extends SheetTimes {
  readonly sides: Sides;
  readonly operateVolts: Span;
  readonly releaseVolts: Span;
  /** Stays where it is without current; set by positive, reset by negative amp-turns. */
  readonly latching?: { readonly deliveredIn: boolean } | undefined;
  /** Drive per volt, where several windings act together: pulling in, and holding. */
  readonly drivePerVolt?: { readonly operate: number; readonly hold: number };
  readonly ratedVolts: number;
  readonly quench: Coil["quench"];
  readonly isGiven: Coil["isGiven"];
}

/** Coils of one armature. Returns its latch. */
export function putArmature(door: Door, windings: readonly Winding[], spec: ArmatureSpec): number {
  const latch = door.nextLatch();
  const first = windings[0];
  const perVolt = first === undefined ? 1 : first.turns / first.ohms;
  const { operate = perVolt, hold = perVolt } = spec.drivePerVolt ?? {};
  const elements = windings.map(({ from, to, ohms, turns }) => ({
    element: door.load(
      { from, to, says: "coil", ohms, copper: true },
      { kind: "latch", latch, partlyAbove: spec.releaseVolts.least * hold },
    ),
    turns,
  }));
  const times = (v: Span, by: number): Span => ({ least: v.least * by, most: v.most * by });
  const on = times(spec.operateVolts, operate);
  const { onTime, offTime, arrives } = travelOf(spec.sides, spec);
  const remembers = { kept: spec.latching !== undefined, delivered: spec.latching?.deliveredIn ?? false };
  door.latch({
    id: door.part,
    kind: "armature",
    drive: { kind: "amp-turns", windings: elements, sign: spec.latching ? "both" : "none" },
    on,
    off: spec.latching ? { least: -on.most, most: -on.least } : times(spec.releaseVolts, hold),
    ...remembers,
    onTime,
    offTime,
    voltsPerDrive: 1 / hold,
    carries: arrives && { latch: latch + 1, ...arrives },
  });
  if (arrives !== undefined)
    door.latch({
      id: door.inside("contact"),
      kind: "contact",
      drive: { kind: "logic", logic: [[whileOn(latch)]] },
      ...remembers,
      onTime: arrives.on.inAir,
      offTime: arrives.off.inAir,
      carriedBy: latch,
    });
  door.coil({
    latch,
    windings: elements.map((e) => e.element),
    ratedVolts: spec.ratedVolts,
    drivePerVolt: { operate, hold },
    quench: spec.quench,
    sides: spec.sides,
    operateTime: spec.operateTime,
    releaseTime: spec.releaseTime,
    transit: spec.transit,
    isGiven: spec.isGiven,
  });
  return latch;
}

interface ContactSpec {
  readonly from: string;
  readonly to: string;
  readonly ohms: number;
  /** Of its armature. */
  readonly latch: number;
  readonly make: boolean;
}

/** A contact: closed while the armature is in (make) or out (break), and has brought its contact there. */
export function putContact(door: Door, { from, to, ohms, latch, make }: ContactSpec): void {
  const carried = door.carriedBy(latch);
  const latches = [latch, ...(carried === undefined ? [] : [carried])];
  const closed: Logic = [[{ negated: false, literals: latches.map((l) => ({ kind: "latch", latch: l, is: make })) }]];
  const element = door.gate({ from, to, says: make ? "make contact" : "rest contact", ohms, closed });
  if (make) door.makes(element);
}
