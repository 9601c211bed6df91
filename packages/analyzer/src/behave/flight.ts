import type { Span } from "@loomproof/netlist";
import type { Latch } from "../circuit/circuit.ts";
import { delayOf, isTimer, type Machine, wantsOf } from "./machine.ts";
import { type State, toggling, withEnd, withStand } from "./state.ts";
import { atLeast, atMost, keeping, micros, NO_CLOCKS, started, waited, type Zone } from "./zone.ts";

// Between one move of the world and rest: what is on its way, and the times at which it can land.

/** Something that happened on the way. */
export type Event =
  | { readonly kind: "latch"; readonly latch: number; readonly on: boolean }
  | { readonly kind: "stand"; readonly input: number; readonly stand: number };

/** An input on its way to a position. Times in seconds; both nothing for one that jumps. */
export interface Passage {
  readonly input: number;
  readonly stand: number;
  readonly least: number;
  readonly most: number;
  /** Where a hand may turn it straight on to. Left out, it stands there until all is quiet. */
  readonly onwards?: Onwards | undefined;
}

/** Positions that a hand may turn an input to while relays have not come to rest, within seconds of getting there. */
export interface Onwards {
  readonly stands: readonly number[];
  readonly within: number;
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

/** What a flight comes to next: another flight, or rest. */
export interface Next {
  readonly landed: boolean;
  /** It went through although its reason had gone. */
  readonly late: boolean;
  readonly flight: Flight;
}

/** Within this time of landing a move whose reason has gone goes through all the same: 0.3 ms, from memory. */
const COMMIT = 300;
/** Stands for a key among what is on its way. */
const PASSAGE = -1;
/** Stands for a hand that may turn it on from where it has come to. It need not. */
const ONWARDS = -2;
/** Stands for a clock that somebody watches. Nothing lands by it. */
const WATCH = -3;

export function takeOff(state: State, passage: Passage | undefined): Flight {
  const flight = { state, pending: [], zone: NO_CLOCKS, passage, events: undefined, tempted: [] };
  if (passage === undefined) return flight;
  // A jump is the move itself: it needs no telling.
  return passage.most === 0 ? arrived(flight, false) : { ...flight, ...onItsWay(flight, passage) };
}

/** With the input of a passage on its way. */
function onItsWay(flight: Flight, { least, most }: Passage): Pick<Flight, "pending" | "zone"> {
  const { zone, pending } = flight;
  const way = { what: PASSAGE, clock: zone.size, least: micros(least), most: micros(most) };
  return { zone: started(zone), pending: [way, ...pending] };
}

/** With the input of a passage where it was going to. A hand may turn it on from there. */
function arrived(flight: Flight, isTold = true): Flight {
  const { input, stand, onwards } = flight.passage as Passage;
  const event: Event = { kind: "stand", input, stand };
  const there = {
    ...flight,
    state: withStand(flight.state, input, stand),
    events: isTold ? { event, before: flight.events } : flight.events,
  };
  if (onwards === undefined) return { ...there, passage: undefined };
  const { zone, pending } = flight;
  const choice = { what: ONWARDS, clock: zone.size, least: 0, most: micros(onwards.within) };
  return { ...there, zone: started(zone), pending: [choice, ...pending] };
}

/** Everything that can come next. */
export function advance(machine: Machine, flight: Flight, frozen?: ReadonlySet<number>): readonly Next[] {
  const { state } = flight;
  const { latches } = machine.circuit;
  const { changing, split } = wantsOf(machine, state, frozen);
  if (split !== undefined)
    return [
      flying({ ...flight, state: withEnd(state, split.latch, split.change) }),
      flying({ ...flight, state: withEnd(state, split.latch, split.stay) }),
    ];
  if (changing.length === 0 && !flight.pending.some(isUnderWay)) return [landed(flight)];
  const { wanting, instant } = sorted(machine, state, changing);
  const fresh = changing.filter(
    (i) => state.latches[i] === 1 && latches[i]?.kind === "armature" && !flight.tempted.includes(i),
  );
  const here =
    fresh.length === 0 ? flight : { ...flight, tempted: [...flight.tempted, ...fresh].sort((a, b) => a - b) };
  return instant.length > 0 ? [flying(toggled(here, instant))] : launch(machine, here, wanting);
}

/** What changes after a time and what at once, of what wants to change; not what takes so long that the world moves. */
function sorted(machine: Machine, state: State, changing: readonly number[]) {
  const wanting: number[] = [];
  const instant: number[] = [];
  for (const i of changing) {
    const latch = machine.circuit.latches[i] as Latch;
    const on = state.latches[i] === 0;
    if (!isTimer(latch, on, state)) (delayOf(latch, on, state).most === 0 ? instant : wanting).push(i);
  }
  return { wanting, instant };
}

/** A flight with all that it sets on its way and without what it calls back; undefined if something changes at once. */
export function setOff(machine: Machine, flight: Flight): Flight | undefined {
  const { changing, split } = wantsOf(machine, flight.state);
  const { wanting, instant } = sorted(machine, flight.state, changing);
  return split !== undefined || instant.length > 0 ? undefined : { ...flight, ...launched(machine, flight, wanting) };
}

/** A hand that may move is nothing that anybody waits for. */
const isUnderWay = ({ what }: Pending): boolean => what > ONWARDS;

const flying = (flight: Flight, late = false): Next => ({ landed: false, late, flight });
const landed = (flight: Flight): Next => ({ landed: true, late: false, flight });

/** Everything on its way after what a flight wants, what it calls back, and the clocks of all. */
function launched(machine: Machine, flight: Flight, wanting: readonly number[]) {
  const { state } = flight;
  const recalled: Pending[] = [];
  const pending: Pending[] = [];
  for (const p of flight.pending) (p.what < 0 || wanting.includes(p.what) ? pending : recalled).push(p);
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
  return { pending, recalled, zone };
}

function launch(machine: Machine, flight: Flight, wanting: readonly number[]): readonly Next[] {
  const { pending, recalled, zone } = launched(machine, flight, wanting);
  const next: Next[] = [];
  // A move about to land goes through although its reason has gone; it then finds its way back or not.
  for (const p of recalled) {
    const committed = started(zone);
    const during = waited(committed, mostOf(committed, [...pending, p, { ...p, clock: zone.size, most: COMMIT }]));
    if (during !== undefined) push(next, land(flight, pending, during, p), true);
  }
  if (!pending.some(isUnderWay)) {
    next.push(landed(flight));
    return next;
  }
  const during = waited(zone, mostOf(zone, pending));
  if (during === undefined) return next;
  for (const p of pending)
    if (isUnderWay(p)) push(next, land(flight, pending, during, p));
    else if (p.what === ONWARDS)
      for (const to of flight.passage?.onwards?.stands ?? []) push(next, turnedOn(flight, pending, during, p, to));
  return next;
}

function push(next: Next[], flight: Flight | undefined, late = false): void {
  if (flight !== undefined) next.push(flying(flight, late));
}

/** The most that each clock can show before something that runs on it has landed. */
function mostOf({ size }: Zone, pending: readonly Pending[]): readonly number[] {
  const most = new Array<number>(size).fill(Number.POSITIVE_INFINITY);
  for (const p of pending) if (isUnderWay(p)) most[p.clock] = Math.min(most[p.clock] as number, p.most);
  return most;
}

/** Lets one move land, at any time in `during` that its own times allow; undefined if there is none. */
function land(flight: Flight, all: readonly Pending[], during: Zone, p: Pending): Flight | undefined {
  const when = atLeast(during, p.clock, p.least);
  if (when === undefined) return undefined;
  const after = without(flight, all, when, p);
  return p.what === PASSAGE ? arrived(after) : toggled(after, [p.what]);
}

/** The hand turns on, while something else is still on its way. It jumps: how long it passes is all one by then. */
function turnedOn(
  flight: Flight,
  all: readonly Pending[],
  during: Zone,
  p: Pending,
  stand: number,
): Flight | undefined {
  const when = atMost(during, p.clock, p.most);
  if (when === undefined) return undefined;
  const { input } = flight.passage as Passage;
  return arrived({
    ...without(flight, all, when, p),
    passage: { input, stand, least: 0, most: 0 },
  });
}

/** With one move no longer on its way, and only the clocks that are still looked at. */
function without(flight: Flight, all: readonly Pending[], when: Zone, p: Pending): Flight {
  const left = all.filter((q) => q !== p);
  const clocks = [...new Set(left.map((q) => q.clock))].sort((a, b) => a - b);
  const pending = left.map((q) => {
    const clock = clocks.indexOf(q.clock) + 1;
    return clock === q.clock ? q : { ...q, clock };
  });
  return { ...flight, pending, zone: keeping(when, clocks) };
}

function toggled(flight: Flight, latches: readonly number[]): Flight {
  let { events } = flight;
  for (const latch of latches)
    events = { event: { kind: "latch", latch, on: flight.state.latches[latch] === 0 }, before: events };
  return { ...flight, state: toggling(flight.state, latches), events };
}

/** The same flight with a clock started now. */
export function watched(flight: Flight): Flight {
  const { zone, pending } = flight;
  return {
    ...flight,
    zone: started(zone),
    pending: [{ what: WATCH, clock: zone.size, least: 0, most: 0 }, ...pending],
  };
}

/** Seconds that the watched clock of a flight can show. */
export function watchOf({ pending, zone: { size, bounds } }: Flight): Span {
  const clock = pending.find((p) => p.what === WATCH)?.clock;
  if (clock === undefined) throw new Error("nobody watches this flight");
  return { least: -(bounds[clock] as number) / 1e6, most: (bounds[clock * size] as number) / 1e6 };
}

/** Seconds after which a latch that is on its way would land; undefined if it is not. */
export function remaining({ pending, zone: { size, bounds } }: Flight, latch: number): Span | undefined {
  const p = pending.find((x) => x.what === latch);
  if (p === undefined) return undefined;
  const [most, least] = [bounds[p.clock * size] as number, -(bounds[p.clock] as number)];
  return { least: Math.max(0, p.least - most) / 1e6, most: Math.max(0, p.most - least) / 1e6 };
}

/** Seconds from the landing of one move on its way to that of another, which may come first: then less than nothing. */
export function apart({ zone: { size, bounds } }: Flight, one: Pending, other: Pending): Span {
  const ahead = (x: Pending, y: Pending) => bounds[x.clock * size + y.clock] as number;
  return {
    least: (other.least - one.most - ahead(other, one)) / 1e6,
    most: (other.most - one.least + ahead(one, other)) / 1e6,
  };
}

/** What happened on the way, first things first. */
export function eventsOf({ events }: Flight): readonly Event[] {
  const list: Event[] = [];
  for (let t = events; t !== undefined; t = t.before) list.push(t.event);
  return list.reverse();
}

/** The same for flights that differ in times and story only. */
export function flightKey({ state, pending, passage, tempted }: Flight): string {
  let { key } = state;
  for (const { what, clock } of pending) key += String.fromCharCode(what + 3, clock);
  if (passage !== undefined) key += `>${passage.stand}`;
  return tempted.length === 0 ? key : `${key}#${tempted.join()}`;
}
