import { ALWAYS, type Coil, type Element, type Latch } from "./circuit.ts";
import { pieceAt, piecesOf } from "./curve.ts";
import type { Draft } from "./draft.ts";
import { netsOf } from "./nets.ts";
import { travelOf } from "./travel.ts";

// What a relay's sheet says of letting go was measured on the relay alone. What wires lead across its coil, of a
// neighbour on the same two nets or by itself, keeps its current going: a plain diode as its own would, a lamp or a
// resistor for less long, a capacitor until it is empty.

/** The slowest of common relays with a plain diode, s: as the catalogue's widest release time, from memory. */
const WITH_DIODE_SECONDS = 0.02;

/**
 * What goes on beside a diode when its drop no longer lets anything through it, s: a tenth of the slowest, from the
 * project's own transients (test/props/beside-coils.test.ts).
 */
const BEYOND_DIODE_SECONDS = 0.1 * WITH_DIODE_SECONDS;

/** Latches, those slower whose coil has something across it that is not its own. */
export function slowedBeside(draft: Draft): readonly Latch[] {
  const latches = [...draft.latches];
  const beside = besideBy(draft);
  const farads = new Map(draft.capacitances.map((c) => [c.element, c.farads]));
  for (const coil of draft.coils) {
    const { windings, quench, latch, sides, releaseTime } = coil;
    const winding = draft.elements[windings[0] ?? -1];
    if (winding === undefined || windings.length > 1) continue;
    const across = beside(winding);
    if (across.length === 0) continue;
    const old = latches[latch] as Latch;
    const stored = across.reduce((sum, { index }) => sum + (farads.get(index) ?? 0), 0);
    const emptied = stored * winding.ohms * fallsThrough(coil, old);
    const longer = quench.kind === "diode" ? BEYOND_DIODE_SECONDS : goesOn(coil, winding, across, stored > 0);
    // From as quick as it is alone to as slow as can be: how much slower this one is, nobody has measured.
    const most = releaseTime.most + longer + emptied;
    if (most <= releaseTime.most) continue;
    const { offTime, arrives } = travelOf(sides, { ...coil, releaseTime: { least: releaseTime.least, most } });
    latches[latch] = { ...old, offTime, carries: old.carries && arrives && { ...old.carries, off: arrives.off } };
  }
  return latches;
}

/** Something across a coil, and whether its ends are the same way round. */
interface Beside {
  readonly index: number;
  readonly element: Element;
  readonly isAlike: boolean;
}

/** What always lies between the same two nets as a winding and belongs to another part. */
function besideBy({ coils, elements, nodes }: Draft): (winding: Element) => readonly Beside[] {
  const nets = netsOf(nodes.length);
  for (const e of elements) if (e.class === "conductor" && !e.series && e.closed === ALWAYS) nets.join(e.a, e.b);
  const key = (e: Element): number => {
    const [a, b] = [nets.of(e.a), nets.of(e.b)];
    return Math.min(a, b) * nodes.length + Math.max(a, b);
  };
  const windings = new Set(coils.flatMap((c) => c.windings));
  const across = new Map<number, number[]>();
  for (const [i, e] of elements.entries())
    if (e.closed === ALWAYS && e.emf === 0 && !windings.has(i) && nets.of(e.a) !== nets.of(e.b))
      across.set(key(e), [...(across.get(key(e)) ?? []), i]);
  return (winding) =>
    (across.get(key(winding)) ?? []).flatMap((index) => {
      const element = elements[index] as Element;
      const isAlike = nets.of(element.a) === nets.of(winding.a);
      return element.owner.id === winding.owner.id ? [] : [{ index, element, isAlike }];
    });
}

/** Seconds for which its current goes on through diodes, lamps or resistors, or swings with a capacitor. */
function goesOn({ ratedVolts }: Coil, winding: Element, across: readonly Beside[], swings: boolean): number {
  // To and fro it dies away half as fast: by 2 L/R instead of L/R.
  if (swings) return 2 * WITH_DIODE_SECONDS;
  if (across.some(({ element: e }) => e.class === "gate" && e.oneWay)) return WITH_DIODE_SECONDS;
  const siemens = across.reduce(
    (sum, { element, isAlike }) => sum + siemensBack(element, isAlike ? -ratedVolts : ratedVolts),
    0,
  );
  // Inductance over all resistance of the loop: the coil's alone with a diode, and here what lies across it as well.
  return (WITH_DIODE_SECONDS * winding.ohms) / (winding.ohms + 1 / siemens);
}

/** What an element lets through of a current that a coil drives back through it, by its volts. */
function siemensBack({ curve, ohms, oneWay }: Element, volts: number): number {
  if (oneWay) return 0;
  if (curve === undefined) return 1 / ohms;
  const { amps0, siemens } = pieceAt(piecesOf(curve.most), volts);
  return Math.max(0, (amps0 + siemens * volts) / volts);
}

/** Time constants in which a capacitor falls from full volts to where the relay lets go for certain. */
function fallsThrough({ ratedVolts }: Coil, { off, voltsPerDrive }: Latch): number {
  const last = off.least * voltsPerDrive;
  return last > 0 && last < ratedVolts ? naturalLog((FULL_SHARE * ratedVolts) / last) : 0;
}

/** A full supply with the engine running over the rated volts: 15 V over 12 V, common practice, no source. */
const FULL_SHARE = 1.25;
const ROOTS = 4;

/** By roots and sums alone, which come out the same in every engine: ln x = 2ⁿ ln x^(1/2ⁿ), and that by its series. */
function naturalLog(x: number): number {
  let root = x;
  for (let k = 0; k < ROOTS; k++) root = Math.sqrt(root);
  const z = (root - 1) / (root + 1);
  const square = z * z;
  return 2 ** ROOTS * 2 * z * (1 + square * (1 / 3 + square * (1 / 5 + square * (1 / 7 + square / 9))));
}
