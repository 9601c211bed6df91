import type { Span } from "@loomproof/netlist";
import { ALWAYS, type Element, type Latch } from "./circuit.ts";
import { pieceAt, piecesOf } from "./curve.ts";
import type { Draft } from "./draft.ts";
import { netsOf } from "./nets.ts";
import { travelOf } from "./travel.ts";

// What a relay's sheet says of letting go was measured on the relay alone. What wires lead across its coil, of a
// neighbour on the same two nets or by itself, keeps its current going: a plain diode as its own would, a lamp or a
// resistor for less long.

/** The slowest of common relays with a plain diode, s: as the catalogue's widest release time, from memory. */
const WITH_DIODE_SECONDS = 0.02;

/** Latches, those slower whose coil has something across it that is not its own. */
export function slowedBeside(draft: Draft): readonly Latch[] {
  const slowest = slowestOf(draft);
  return draft.latches.map((l, i) => {
    const coil = draft.coils.find((c) => c.latch === i);
    const seconds = slowest.get(i) ?? 0;
    if (coil === undefined || seconds <= coil.releaseTime.most) return l;
    const { offTime, arrives } = travelOf(coil.sides, { ...coil, releaseTime: upTo(coil.releaseTime, seconds) });
    return { ...l, offTime, carries: l.carries && arrives && { ...l.carries, off: arrives.off } };
  });
}

/** From as quick as it is alone to as slow as any: how much slower this one is, nobody has measured. */
const upTo = ({ least }: Span, most: number): Span => ({ least, most });

/** Seconds that a relay may take to let go with what lies across its coil, by latch. */
function slowestOf({ coils, elements, nodes }: Draft): ReadonlyMap<number, number> {
  const nets = netsOf(nodes.length);
  for (const e of elements) if (e.class === "conductor" && !e.series && e.closed === ALWAYS) nets.join(e.a, e.b);
  const key = (e: Element): number => {
    const [a, b] = [nets.of(e.a), nets.of(e.b)];
    return Math.min(a, b) * nodes.length + Math.max(a, b);
  };
  const isAlike = (e: Element, coil: Element): boolean => nets.of(e.a) === nets.of(coil.a);
  const windings = new Set(coils.flatMap((c) => c.windings));
  const across = new Map<number, Element[]>();
  for (const [i, e] of elements.entries())
    if (e.closed === ALWAYS && e.emf === 0 && !windings.has(i) && nets.of(e.a) !== nets.of(e.b))
      across.set(key(e), [...(across.get(key(e)) ?? []), e]);
  return new Map(
    coils.flatMap(({ latch, windings: [first, ...more], quench, ratedVolts, releaseTime }) => {
      const coil = first === undefined ? undefined : elements[first];
      if (coil === undefined || more.length > 0 || quench.kind === "diode") return [];
      const beside = (across.get(key(coil)) ?? []).filter((e) => e.owner.id !== coil.owner.id);
      if (beside.some((e) => e.class === "gate" && e.oneWay)) return [[latch, WITH_DIODE_SECONDS]];
      const siemens = beside.reduce((sum, e) => sum + siemensBack(e, isAlike(e, coil) ? -ratedVolts : ratedVolts), 0);
      // Inductance over all resistance of the loop: the coil's alone with a diode, and here what lies across it as well.
      const longer = (WITH_DIODE_SECONDS * coil.ohms) / (coil.ohms + 1 / siemens);
      return [[latch, Math.min(WITH_DIODE_SECONDS, releaseTime.most + longer)]];
    }),
  );
}

/** What an element lets through of a current that a coil drives back through it, by its volts. */
function siemensBack({ curve, ohms, oneWay }: Element, volts: number): number {
  if (oneWay) return 0;
  if (curve === undefined) return 1 / ohms;
  const { amps0, siemens } = pieceAt(piecesOf(curve.most), volts);
  return Math.max(0, (amps0 + siemens * volts) / volts);
}
