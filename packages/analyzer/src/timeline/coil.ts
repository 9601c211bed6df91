import type { Circuit, Coil, Element, Latch } from "../circuit/circuit.ts";
import { type Choice, inside, middle, timeOf } from "./choice.ts";

// What a coil is worth where the loom gives times and no inductance. Two numbers are fitted, inductance and dead time;
// the thresholds stay as the part has them. Where the part gives its times, they are met in its own circuit: its own
// suppression, rated volts, cut off by an ideal switch. Where the catalogue's wide times stand in, the house's usual
// coil is taken, and what is fitted round it in this loom decides.

/** A coil as the transient needs it. Current is counted behind the core's losses: the part of it that pulls. */
export interface CoilValues {
  /** Inductance over the winding's resistance at 20 °C, s: with the armature out and in. */
  readonly openSeconds: number;
  readonly closedSeconds: number;
  /** From the threshold to the make contact closing, and to its opening, s. */
  readonly operateDeadSeconds: number;
  readonly releaseDeadSeconds: number;
  /** Time for which a changeover contact is in the air, s. */
  readonly transitSeconds: number;
}

/**
 * Inductance over resistance with the armature in: fits of three relays give 5.5, 5.6 and 8.0 ms
 * (test/published/relay-release.test.ts); between them.
 */
const CLOSED_SECONDS = 0.0065;
/**
 * Inductance with the armature out as a share of that with it in: 0.6 from memory; the rise of 3.7 ms measured on the
 * 40 A relay named below asks for 0.7 to 1, by its threshold. Between them.
 */
const OPEN_SHARE = 0.75;
/** Losses of the core, as a resistor beside the inductance, in coil resistances: from memory. */
export const LOSS_RATIO = 25;
/** Travel to the make contact, measured on a 40 A relay: irrelevant-tech.com, 2026/03, "Relay Dynamics Puzzle" (read). */
const OPERATE_DEAD_SECONDS = 0.0019;
/** From the threshold to the contact opening: the same three fits give 0.1, 1.1 and 1.2 ms. */
const RELEASE_DEAD_SECONDS = 0.0008;
/** The least share of a given time that is left to the armature: common practice, no source. */
const LEAST_DEAD_SHARE = 0.1;
/** Drop of the house's silicon diode at a coil's current, V. */
const DIODE_VOLTS = 0.75;

/** The values of one coil at one end of its times. */
export function coilValues(circuit: Circuit, coil: Coil, choice: Choice): CoilValues {
  const latch = circuit.latches[coil.latch] as Latch;
  const ohms = (circuit.elements[coil.windings[0] ?? 0] as Element).ohms;
  const { ratedVolts, drivePerVolt, quench, isGiven, operateTime, releaseTime } = coil;
  // Thresholds as amps of the first winding alone, at rated volts all windings together.
  const rated = ratedVolts / ohms;
  const operateAmps = (middle(latch.on) / (ratedVolts * drivePerVolt.operate)) * rated;
  const off = middle(latch.off);
  const releaseAmps = (Math.abs(off) / (ratedVolts * drivePerVolt.hold)) * rated;
  const rise = risePerHenry(ohms, ratedVolts, operateAmps);
  const fall = off < 0 ? risePerHenry(ohms, ratedVolts, releaseAmps) : fallPerHenry(ohms, quench, rated, releaseAmps);
  const operate = fitted(
    OPEN_SHARE * CLOSED_SECONDS * ohms,
    rise,
    OPERATE_DEAD_SECONDS,
    inside(operateTime, choice, isGiven.operateTime),
  );
  const transitSeconds = timeOf(coil.transit, choice);
  const released = inside(releaseTime, choice, isGiven.releaseTime);
  const release = fitted(CLOSED_SECONDS * ohms, fall, RELEASE_DEAD_SECONDS, (seconds) => {
    // A sheet counts on until the rest contact has closed, where there is one.
    const inAll = released(seconds + transitSeconds);
    return Math.max(inAll / 2, inAll - transitSeconds);
  });
  return {
    openSeconds: operate.henries / ohms,
    closedSeconds: release.henries / ohms,
    operateDeadSeconds: operate.dead,
    releaseDeadSeconds: release.dead,
    transitSeconds,
  };
}

/** Seconds that a latch takes to go on and off: an armature from its threshold, a contact from where it was let go. */
export interface Delays {
  readonly on: number;
  readonly off: number;
}

/** Of an armature, and of the contact that it carries. See `circuit/travel.ts`. */
export function delaysOf(
  { latches }: Circuit,
  { latch, sides }: Coil,
  values: CoilValues,
): readonly [number, Delays][] {
  const { operateDeadSeconds, releaseDeadSeconds, transitSeconds } = values;
  const rising = Math.min(transitSeconds, operateDeadSeconds);
  const armature = {
    on: sides === "make" ? operateDeadSeconds : operateDeadSeconds - rising,
    off: sides === "rest" ? releaseDeadSeconds + transitSeconds : releaseDeadSeconds,
  };
  const contact = latches[latch]?.carries?.latch;
  const way: [number, Delays] = [latch, armature];
  return contact === undefined ? [way] : [way, [contact, { on: rising, off: transitSeconds }]];
}

/** Meets a time: the dead time gives way first, then the inductance. `at` moves the house's own time into the part's. */
function fitted(
  henries: number,
  perHenry: number,
  dead: number,
  at: (seconds: number) => number,
): { readonly henries: number; readonly dead: number } {
  const electrical = henries * perHenry;
  const wanted = at(electrical + dead);
  const least = Math.min(dead, LEAST_DEAD_SHARE * wanted);
  if (electrical <= wanted - least) return { henries, dead: wanted - electrical };
  return { henries: perHenry > 0 ? (wanted - least) / perHenry : henries, dead: least };
}

/** Seconds a henry from nothing to `amps` at `volts`. */
function risePerHenry(ohms: number, volts: number, amps: number): number {
  if (amps >= volts / ohms) return 0;
  return secondsPerHenry(0, amps, (i) => (volts - ohms * i) / (1 + 1 / LOSS_RATIO));
}

/** Seconds a henry from `from` down to `to`, once an ideal switch has opened. */
function fallPerHenry(ohms: number, quench: Coil["quench"], from: number, to: number): number {
  if (to >= from || to <= 0) return 0;
  const loss = LOSS_RATIO * ohms;
  const held = (drop: number) => (i: number) => (drop + ohms * i) / (1 + 1 / LOSS_RATIO);
  switch (quench.kind) {
    case "none":
      return secondsPerHenry(to, from, (i) => loss * i);
    case "resistor":
      return secondsPerHenry(to, from, (i) => i / (1 / loss + 1 / (ohms + quench.ohms)));
    case "diode":
      return secondsPerHenry(to, from, held(DIODE_VOLTS));
    case "zener":
      return secondsPerHenry(to, from, held(DIODE_VOLTS + quench.volts));
    default:
      return quench satisfies never;
  }
}

const PANELS = 64;

/** The integral of di / volts(i): Simpson's rule, for the last digits of a logarithm differ between engines. */
function secondsPerHenry(from: number, to: number, volts: (amps: number) => number): number {
  const width = (to - from) / PANELS;
  let sum = 0;
  for (let k = 0; k <= PANELS; k++)
    sum += (k === 0 || k === PANELS ? 1 : k % 2 === 1 ? 4 : 2) / volts(from + k * width);
  return (sum * width) / 3;
}
