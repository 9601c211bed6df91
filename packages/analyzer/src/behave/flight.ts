import type { Latch } from "../circuit/circuit.ts";
import { delayOf, isTimer, type Machine, wantsOf } from "./machine.ts";
import { type State, toggling, withEnd, withStand } from "./state.ts";
import { atLeast, keeping, micros, NO_CLOCKS, started, waited, type Zone } from "./zone.ts";

// Between one move of the world and rest: what is on its way, and the times at which it can land.

/** Something that happened on the way. */
export type Event =
  | { readonly kind: "latch"; readonly latch: number; readonly on: boolean }
  | { readonly kind: "stand"; readonly input: number; readonly stand: number };

/** A key on its way from one position to the next. Times in seconds. */
export interface Passage {
  readonly input: number;
  readonly stand: number;
  readonly least: number;
  readonly most: number;
}

/** On its way: a latch or a key passage that lands when its clock shows between `least` and `most`, in microseconds. */
export interface Pending {
  readonly what: number;
  /** Runs since the event that set it on its way; what was set on its way together shares it. */
  readonly clock: number;
  readonly least: number;
  readonly most: number;
}

/** The moment after something has landed. */
export interface Flight {
  readonly state: State;
  readonly pending: readonly Pending[];
  readonly zone: Zone;
  readonly passage: Passage | undefined;
  readonly events: Trail | undefined;
  /** Armatures that wanted to let go at some moment of this flight, ascending. */
  readonly tempted: readonly number[];
}

interface Trail {
  readonly event: Event;
  readonly before: Trail | undefined;
}

/** What a flight comes to next: another flight, or rest. */
export type Next = { readonly landed: boolean; readonly flight: Flight };

/** Within this time of landing a move whose reason has gone goes through all the same: 0.3 ms, from memory. */
const COMMIT = 300;
/** Stands for a key among what is on its way. */
export const PASSAGE = -1;

export function takeOff(state: State, passage: Passage | undefined): Flight {
  const flight = { state, pending: [], zone: NO_CLOCKS, passage, events: undefined, tempted: [] };
  if (passage === undefined) return flight;
  const { least, most } = passage;
  const zone = started(NO_CLOCKS);
  return { ...flight, zone, pending: [{ what: PASSAGE, clock: 1, least: micros(least), most: micros(most) }] };
}

/** Everything that can come next. */
export function advance(machine: Machine, flight: Flight, frozen: ReadonlySet<number>): readonly Next[] {
  const { state } = flight;
  const { latches } = machine.circuit;
  const { changing, split } = wantsOf(machine, state, frozen);
  if (split !== undefined)
    return [
      flying({ ...flight, state: withEnd(state, split.latch, split.change) }),
      flying({ ...flight, state: withEnd(state, split.latch, split.stay) }),
    ];
  if (changing.length === 0 && flight.pending.length === 0) return [landed(flight)];
  const wanting: number[] = [];
  const instant: number[] = [];
  let { tempted } = flight;
  for (const i of changing) {
    const latch = latches[i] as Latch;
    const on = state.latches[i] === 0;
    if (!on && latch.kind === "armature" && !tempted.includes(i)) tempted = [...tempted, i].sort((a, b) => a - b);
    if (isTimer(latch, on, state)) continue;
    (delayOf(latch, on, state).most === 0 ? instant : wanting).push(i);
  }
  const here = tempted === flight.tempted ? flight : { ...flight, tempted };
  return instant.length > 0 ? [flying(toggled(here, instant))] : launch(machine, here, wanting);
}

const flying = (flight: Flight): Next => ({ landed: false, flight });
const landed = (flight: Flight): Next => ({ landed: true, flight });

function launch(machine: Machine, flight: Flight, wanting: readonly number[]): readonly Next[] {
  const { state } = flight;
  const recalled: Pending[] = [];
  const pending: Pending[] = [];
  for (const p of flight.pending) (p.what === PASSAGE || wanting.includes(p.what) ? pending : recalled).push(p);
  const fresh = wanting.filter((i) => !flight.pending.some((p) => p.what === i));
  let { zone } = flight;
  if (fresh.length > 0) {
    const clock = zone.size;
    zone = started(zone);
    for (const i of fresh) {
      const { least, most } = delayOf(machine.circuit.latches[i] as Latch, state.latches[i] === 0, state);
      pending.push({ what: i, clock, least: micros(least), most: micros(most) });
    }
  }
  if (pending.length > 1) pending.sort((a, b) => a.what - b.what);
  const next: Next[] = [];
  // A move about to land goes through although its reason has gone; it then finds its way back or not.
  for (const p of recalled) {
    const committed = started(zone);
    const during = waited(committed, mostOf(committed, [...pending, p, { ...p, clock: zone.size, most: COMMIT }]));
    if (during !== undefined) push(next, land(flight, pending, during, p));
  }
  if (pending.length === 0) {
    next.push(landed({ ...flight, pending, zone: NO_CLOCKS }));
    return next;
  }
  const during = waited(zone, mostOf(zone, pending));
  if (during !== undefined) for (const p of pending) push(next, land(flight, pending, during, p));
  return next;
}

function push(next: Next[], flight: Flight | undefined): void {
  if (flight !== undefined) next.push(flying(flight));
}

/** The most that each clock can show before something that runs on it has landed. */
function mostOf({ size }: Zone, pending: readonly Pending[]): readonly number[] {
  const most = new Array<number>(size).fill(Number.POSITIVE_INFINITY);
  for (const p of pending) most[p.clock] = Math.min(most[p.clock] as number, p.most);
  return most;
}

/** Lets one move land, at any time in `during` that its own times allow; undefined if there is none. */
function land(flight: Flight, all: readonly Pending[], during: Zone, p: Pending): Flight | undefined {
  const when = atLeast(during, p.clock, p.least);
  if (when === undefined) return undefined;
  const left = all.filter((q) => q !== p);
  const clocks = [...new Set(left.map((q) => q.clock))].sort((a, b) => a - b);
  const pending = left.map((q) => {
    const clock = clocks.indexOf(q.clock) + 1;
    return clock === q.clock ? q : { ...q, clock };
  });
  const after = { ...flight, pending, zone: keeping(when, clocks) };
  if (p.what !== PASSAGE) return toggled(after, [p.what]);
  const { input, stand } = flight.passage as Passage;
  const event: Event = { kind: "stand", input, stand };
  return {
    ...after,
    state: withStand(flight.state, input, stand),
    passage: undefined,
    events: { event, before: flight.events },
  };
}

function toggled(flight: Flight, latches: readonly number[]): Flight {
  let { events } = flight;
  for (const latch of latches)
    events = { event: { kind: "latch", latch, on: flight.state.latches[latch] === 0 }, before: events };
  return { ...flight, state: toggling(flight.state, latches), events };
}

/** What happened on the way, first things first. */
export function eventsOf({ events }: Flight): readonly Event[] {
  const list: Event[] = [];
  for (let t = events; t !== undefined; t = t.before) list.push(t.event);
  return list.reverse();
}

/** The same for flights that differ in times and story only. */
export function flightKey({ state, pending, tempted }: Flight): string {
  let { key } = state;
  for (const { what, clock } of pending) key += String.fromCharCode(what + 1, clock);
  return tempted.length === 0 ? key : `${key}#${tempted.join()}`;
}
