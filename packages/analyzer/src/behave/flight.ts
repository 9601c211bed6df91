import type { Span } from "@loomproof/netlist";
import { fromTo, onClock, type Pending, untilLanding, WATCH } from "./pending.ts";
import type { State } from "./state.ts";
import { started, type Zone } from "./zone.ts";

// Between one move of the world and rest: what is on its way, and the times at which it can land.

/** Something that happened on the way. */
export type Event =
  | { readonly kind: "latch"; readonly latch: number; readonly on: boolean }
  | {
      readonly kind: "stand";
      readonly input: number;
      readonly stand: number;
      /** The hand turned straight on, before all was quiet. */
      readonly straightOn: boolean;
    };

/** An input on its way to a position. Times in seconds; both nothing for one that jumps. */
export interface Passage {
  readonly input: number;
  readonly stand: number;
  readonly least: number;
  readonly most: number;
  /** Where a hand may turn it straight on to. Left out, it stands there until all is quiet. */
  readonly onwards?: Onwards | undefined;
}

export const passageOf = (input: number, stand: number, { least, most }: Span, onwards?: Onwards): Passage => ({
  input,
  stand,
  least,
  most,
  onwards,
});

/** The same passage, from whose end a hand may turn straight on. */
export const turningOn = (passage: Passage, onwards: Onwards | undefined): Passage =>
  passageOf(passage.input, passage.stand, passage, onwards);

export const AT_ONCE: Span = { least: 0, most: 0 };

/** Positions that a hand may turn an input to while relays have not come to rest, within seconds of getting there. */
export interface Onwards {
  readonly stands: readonly number[];
  readonly within: number;
}

/** The moment after something has landed. */
export interface Flight {
  readonly state: State;
  readonly pending: readonly Pending[];
  readonly zone: Zone;
  /** Where an input is on its way to, or has come to and may be turned on from. */
  readonly passage: Passage | undefined;
  readonly events: Trail | undefined;
  /** Armatures that wanted to let go at some moment of this flight, ascending. */
  readonly tempted: readonly number[];
}

interface Trail {
  readonly event: Event;
  readonly before: Trail | undefined;
}

/** Spelt out wherever one is made: to copy a flight and replace some of it takes longer, and these are made most. */
export const flightOf = (
  state: State,
  pending: readonly Pending[],
  zone: Zone,
  passage: Passage | undefined,
  events: Trail | undefined,
  tempted: readonly number[],
): Flight => ({ state, pending, zone, passage, events, tempted });

/** The same flight at another state. */
export const flightAt = ({ pending, zone, passage, events, tempted }: Flight, state: State): Flight =>
  flightOf(state, pending, zone, passage, events, tempted);

/** The same flight with other things on their way. */
export const airborne = (
  { state, passage, events, tempted }: Flight,
  zone: Zone,
  pending: readonly Pending[],
): Flight => flightOf(state, pending, zone, passage, events, tempted);

/** The same flight at any of these times. */
export const flightIn = (flight: Flight, zone: Zone): Flight => airborne(flight, zone, flight.pending);

/** The same flight with a clock started now. */
export function watched(flight: Flight): Flight {
  const { zone, pending } = flight;
  return airborne(flight, started(zone), [onClock(WATCH, zone.size, AT_ONCE), ...pending]);
}

/** Seconds that the watched clock of a flight can show. */
export function watchOf({ pending, zone: { size, bounds } }: Flight): Span {
  const clock = pending.find((p) => p.what === WATCH)?.limits[0]?.clock;
  if (clock === undefined) throw new Error("nobody watches this flight");
  return { least: Math.max(0, -(bounds[clock] as number) / 1e6), most: (bounds[clock * size] as number) / 1e6 };
}

/** Seconds after which a latch that is on its way would land; undefined if it is not. */
export function remaining({ pending, zone }: Flight, latch: number): Span | undefined {
  const p = pending.find((x) => x.what === latch && !x.robbed);
  return p && seconds(untilLanding(zone, p));
}

/** Seconds from the landing of one move on its way to that of another, which may come first: then less than nothing. */
export const apart = ({ zone }: Flight, one: Pending, other: Pending): Span => seconds(fromTo(zone, one, other));

const seconds = ({ least, most }: Span): Span => ({ least: least / 1e6, most: most / 1e6 });

/** What happened on the way, first things first. */
export function eventsOf({ events }: Flight): readonly Event[] {
  const list: Event[] = [];
  for (let t = events; t !== undefined; t = t.before) list.push(t.event);
  return list.reverse();
}

/** The same for flights that differ in times and story only. */
export function flightKey({ state, pending, passage, tempted }: Flight): string {
  let { key } = state;
  for (const { what, limits, robbed } of pending) {
    key += String.fromCharCode(what + 3, limits.length * 2 + (robbed ? 1 : 0));
    for (const { clock } of limits) key += String.fromCharCode(clock);
  }
  if (passage !== undefined) key += `>${passage.stand}`;
  return tempted.length === 0 ? key : `${key}#${tempted.join()}`;
}
