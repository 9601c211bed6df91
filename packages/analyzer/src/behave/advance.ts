import type { Circuit, Latch } from "../circuit/circuit.ts";
import { AT_ONCE, airborne, type Event, type Flight, flightAt, flightOf, type Passage, passageOf } from "./flight.ts";
import type { Machine } from "./machine.ts";
import {
  canLand,
  clocksOf,
  countedAnew,
  isUnderWay,
  landsIn,
  mostOf,
  ONWARDS,
  onClock,
  PASSAGE,
  type Pending,
  pendingOf,
  robbedAt,
} from "./pending.ts";
import { type State, toggling, withEnd, withStand } from "./state.ts";
import { delayOf, isTimer } from "./want.ts";
import { wantsOf } from "./wants.ts";
import { keeping, NO_CLOCKS, started, waited, type Zone } from "./zone.ts";

// What can come next while something is on its way.

/** What a flight comes to next: another flight, or rest. */
export interface Next {
  readonly landed: boolean;
  /** It went through although its reason had gone. */
  readonly late: boolean;
  readonly flight: Flight;
}

const NOTHING: readonly never[] = [];

export function takeOff(state: State, passage: Passage | undefined): Flight {
  const flight = flightOf(state, NOTHING, NO_CLOCKS, passage, undefined, NOTHING);
  if (passage === undefined) return flight;
  // A jump is the move itself: it needs no telling.
  if (passage.most === 0) return arrived(flight, false);
  const { zone, pending } = flight;
  const onItsWay = [onClock(PASSAGE, zone.size, passage), ...pending];
  return flightOf(state, onItsWay, started(zone), passage, undefined, NOTHING);
}

/** With the input of a passage where it was going to. A hand may turn it on from there. */
function arrived(flight: Flight, isTold = true, straightOn = false): Flight {
  const { input, stand, onwards } = flight.passage as Passage;
  const { zone, pending, tempted } = flight;
  const event: Event = { kind: "stand", input, stand, straightOn };
  const state = withStand(flight.state, input, stand);
  const events = isTold ? { event, before: flight.events } : flight.events;
  if (onwards === undefined) return flightOf(state, pending, zone, undefined, events, tempted);
  const choice = onClock(ONWARDS, zone.size, { least: 0, most: onwards.within });
  return flightOf(state, [choice, ...pending], started(zone), flight.passage, events, tempted);
}

/** Everything that can come next. */
export function advance(machine: Machine, flight: Flight, frozen?: ReadonlySet<number>): readonly Next[] {
  const { state } = flight;
  const { latches } = machine.circuit;
  const { changing, split } = wantsOf(machine, state, frozen);
  if (split !== undefined)
    return [
      flying(flightAt(flight, withEnd(state, split.latch, split.change))),
      flying(flightAt(flight, withEnd(state, split.latch, split.stay))),
    ];
  if (changing.length === 0 && !flight.pending.some((p) => p.what > ONWARDS)) return [landed(flight)];
  const { wanting, instant } = sorted(machine, state, changing);
  const fresh = changing.filter(
    (i) => state.latches[i] === 1 && latches[i]?.kind === "armature" && !flight.tempted.includes(i),
  );
  const here = fresh.length === 0 ? flight : alsoTempted(flight, fresh);
  return instant.length > 0 ? [flying(toggled(here, instant))] : launch(machine, here, wanting);
}

function alsoTempted({ state, pending, zone, passage, events, tempted }: Flight, fresh: readonly number[]): Flight {
  const all = [...tempted, ...fresh].sort((a, b) => a - b);
  return flightOf(state, pending, zone, passage, events, all);
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
  if (split !== undefined || instant.length > 0) return undefined;
  const { pending, zone } = launched(machine, flight, wanting);
  return airborne(
    flight,
    zone,
    pending.filter((p) => !p.robbed),
  );
}

const flying = (flight: Flight, late = false): Next => ({ landed: false, late, flight });
const landed = (flight: Flight): Next => ({ landed: true, late: false, flight });

/** Everything on its way after what a flight wants and what it robs, and the clocks of all. */
function launched(machine: Machine, flight: Flight, wanting: readonly number[]): Pick<Flight, "pending" | "zone"> {
  const { state, zone } = flight;
  const { latches } = machine.circuit;
  const clock = zone.size;
  const pending: Pending[] = [];
  let begins = false;
  for (const p of flight.pending) {
    const hasReason = p.what < 0 || wanting.includes(p.what);
    // What has its reason back sets out again.
    if (hasReason !== p.robbed) pending.push(p);
    // A contact whose armature has turned round has nowhere else to go.
    if (hasReason || p.robbed || (latches[p.what] as Latch).kind === "contact") continue;
    const robbed = robbedAt(zone, p, clock);
    if (robbed === undefined) continue;
    pending.push(robbed);
    begins = true;
  }
  for (const i of wanting) {
    if (pending.some((p) => p.what === i)) continue;
    pending.push(onClock(i, clock, delayOf(latches[i] as Latch, state.latches[i] === 0, state)));
    begins = true;
  }
  return { pending: inOrder(pending), zone: begins ? started(zone) : zone };
}

function launch(machine: Machine, flight: Flight, wanting: readonly number[]): readonly Next[] {
  const { pending, zone } = launched(machine, flight, wanting);
  const isQuiet = !pending.some(isUnderWay);
  const next: Next[] = isQuiet ? [landed(flight)] : [];
  const during = waited(zone, mostOf(zone, pending));
  if (during === undefined) return next;
  for (const p of pending)
    if (p.what > ONWARDS) push(next, land(machine, flight, pending, during, p), p.robbed);
    else if (p.what === ONWARDS && !isQuiet)
      for (const to of flight.passage?.onwards?.stands ?? []) push(next, turnedOn(flight, pending, during, p, to));
  return next;
}

function push(next: Next[], flight: Flight | undefined, late = false): void {
  if (flight !== undefined) next.push(flying(flight, late));
}

/** Lets one move land, at any time in `during` that its own times allow; undefined if there is none. */
function land(
  { circuit }: Machine,
  flight: Flight,
  all: readonly Pending[],
  during: Zone,
  p: Pending,
): Flight | undefined {
  const when = landsIn(during, p);
  if (when === undefined) return undefined;
  if (p.what === PASSAGE) return arrived(without(flight, all, when, p));
  const contact = contactOf(circuit, flight.state, p);
  if (contact === undefined) return toggled(without(flight, all, when, p), [p.what]);
  // What an armature carries is in the air from now on, and has been on its way as long as the armature.
  const inAir = onClock(contact.latch, when.size, contact.inAir).limits;
  const carried = pendingOf(contact.latch, [...contact.onItsWay.limits, ...inAir], false);
  return toggled(without(flight, inOrder([...all, carried]), started(when), p), [p.what]);
}

/** The contact that an armature on its way carries to the other side, by the times of the whole way. */
export function contactOf({ latches }: Circuit, state: State, { what, limits: [own] }: Pending) {
  const carries = latches[what]?.carries;
  if (carries === undefined || own === undefined || state.latches[what] !== state.latches[carries.latch])
    return undefined;
  const { inAll, inAir } = state.latches[what] === 0 ? carries.on : carries.off;
  return { latch: carries.latch, inAir, onItsWay: onClock(carries.latch, own.clock, inAll) };
}

/** The hand turns on, while something else is still on its way. It jumps: how long it passes is all one by then. */
function turnedOn(
  flight: Flight,
  all: readonly Pending[],
  during: Zone,
  p: Pending,
  stand: number,
): Flight | undefined {
  const when = landsIn(during, p);
  if (when === undefined) return undefined;
  const { input } = flight.passage as Passage;
  const { state, pending, zone, events, tempted } = without(flight, all, when, p);
  return arrived(flightOf(state, pending, zone, passageOf(input, stand, AT_ONCE), events, tempted), true, true);
}

const inOrder = (pending: readonly Pending[]): readonly Pending[] =>
  pending.every((p, k) => k === 0 || (pending[k - 1] as Pending).what <= p.what)
    ? pending
    : pending.toSorted((a, b) => a.what - b.what);

/** With one move no longer on its way. */
const without = (flight: Flight, all: readonly Pending[], when: Zone, p: Pending): Flight =>
  onlyWith(
    flight,
    all.filter((q) => q !== p && (!q.robbed || canLand(when, q))),
    when,
  );

/** With this on its way, and only the clocks that are still looked at. */
function onlyWith(flight: Flight, left: readonly Pending[], when: Zone): Flight {
  const clocks = clocksOf(left);
  const { state, passage, events, tempted } = flight;
  return flightOf(state, countedAnew(left, clocks), keeping(when, clocks), passage, events, tempted);
}

function toggled(flight: Flight, latches: readonly number[]): Flight {
  const { pending, zone, passage, tempted } = flight;
  let { events } = flight;
  for (const latch of latches)
    events = { event: { kind: "latch", latch, on: flight.state.latches[latch] === 0 }, before: events };
  const after = flightOf(toggling(flight.state, latches), pending, zone, passage, events, tempted);
  const isNowDone = (p: Pending) => latches.includes(p.what);
  // What changes at once is no longer on its way.
  if (!pending.some(isNowDone)) return after;
  return onlyWith(
    after,
    pending.filter((p) => !isNowDone(p)),
    zone,
  );
}
