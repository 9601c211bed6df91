import type { Span } from "@loomproof/netlist";
import { ALWAYS, type Coil, type Element, type Latch } from "./circuit.ts";
import type { Draft } from "./draft.ts";
import { netsOf } from "./nets.ts";
import { travelOf } from "./travel.ts";

// What a relay's sheet says of letting go was measured on the relay alone. A plain diode that wires lead across its coil,
// of a neighbour on the same two nets or by itself, keeps the current going as its own would.

/** The slowest of common relays with a plain diode, s: as the catalogue's widest release time, from memory. */
const WITH_DIODE_SECONDS = 0.02;

/** Latches, those slower whose coil has a diode across it that is not its own. */
export function slowedBeside({ latches, coils, elements, nodes }: Draft): readonly Latch[] {
  const nets = netsOf(nodes.length);
  for (const e of elements) if (e.class === "conductor" && !e.series && e.closed === ALWAYS) nets.join(e.a, e.b);
  const across = new Map<number, Element>();
  const key = (e: Element): number => {
    const [a, b] = [nets.of(e.a), nets.of(e.b)];
    return Math.min(a, b) * nodes.length + Math.max(a, b);
  };
  for (const e of elements) if (e.class === "gate" && e.oneWay && e.closed === ALWAYS) across.set(key(e), e);
  const slowed = new Map<number, Coil>();
  for (const coil of coils) {
    const [winding] = coil.windings;
    const e = winding === undefined ? undefined : elements[winding];
    if (e !== undefined && coil.windings.length === 1 && coil.quench.kind !== "diode" && across.has(key(e)))
      slowed.set(coil.latch, coil);
  }
  return latches.map((l, i) => {
    const coil = slowed.get(i);
    if (coil === undefined) return l;
    const { offTime, arrives } = travelOf(coil.sides, { ...coil, releaseTime: withDiode(coil.releaseTime) });
    return { ...l, offTime, carries: l.carries && arrives && { ...l.carries, off: arrives.off } };
  });
}

/** From as quick as it is alone to as slow as any with a diode: how much slower this one is, nobody has measured. */
const withDiode = ({ least, most }: Span): Span => ({ least, most: Math.max(most, WITH_DIODE_SECONDS) });
