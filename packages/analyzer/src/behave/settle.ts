import type { Latch } from "../circuit/circuit.ts";
import { delayOf, isTimer, type Machine, wantsOf } from "./machine.ts";
import { type State, toggling, withEnd, withStand } from "./state.ts";

/** Something that happened on the way. */
export type Event =
  | { readonly kind: "latch"; readonly latch: number; readonly on: boolean }
  | { readonly kind: "stand"; readonly input: number; readonly stand: number };

/** On its way: a latch or a key passage that lands between `least` and `most` seconds from now. */
interface Pending {
  readonly what: number;
  readonly least: number;
  readonly most: number;
}

/** A key on its way from one position to the next. */
export interface Passage {
  readonly input: number;
  readonly stand: number;
  readonly least: number;
  readonly most: number;
}

interface Flight {
  readonly state: State;
  readonly pending: readonly Pending[];
  readonly passage: Passage | undefined;
  readonly events: Trail | undefined;
  /** Armatures that wanted to let go at some moment of this flight, ascending. */
  readonly tempted: readonly number[];
}

interface Trail {
  readonly event: Event;
  readonly before: Trail | undefined;
}

/** A quiet state and how it was reached. */
export interface Landing {
  readonly state: State;
  readonly events: readonly Event[];
  readonly tempted: readonly number[];
}

export interface Settled {
  readonly landings: readonly Landing[];
  /** No order of events came to rest: something buzzes. The latches that went both on and off. */
  readonly restless: readonly number[] | undefined;
  readonly complete: boolean;
}

export interface SettleOptions {
  readonly passage?: Passage | undefined;
  /** Latches held where they are, whatever drives them. */
  readonly frozen?: ReadonlySet<number>;
}

/** Flights followed from one move before the rest is left and said so. */
const MOST_FLIGHTS = 4000;
/** Within this time of landing a move whose reason has gone goes through all the same: 0.3 ms, from memory. */
const COMMIT_SECONDS = 3e-4;
const PASSAGE = -1;

/**
 * Lets everything on its way land, in every order that the times allow, until nothing but timers is left. Times are
 * intervals; each landing shortens what is still pending by what may have passed. Wider than the truth where two
 * intervals hang on one cause, exact where times are points.
 */
export function settle(machine: Machine, from: State, options: SettleOptions = {}): Settled {
  const frozen = options.frozen ?? NONE;
  const landings = new Map<string, Landing>();
  const seen = new Set<string>();
  const moved = new Set<number>();
  const first: Flight = { state: from, pending: [], passage: options.passage, events: undefined, tempted: [] };
  const stack: Flight[] = [first];
  if (options.passage) {
    const { least, most } = options.passage;
    stack[0] = { ...first, pending: [{ what: PASSAGE, least, most }] };
  }
  let flights = 0;
  let complete = true;
  while (stack.length > 0) {
    const flight = stack.pop() as Flight;
    const key = flightKey(flight);
    if (seen.has(key)) continue;
    seen.add(key);
    if (++flights > MOST_FLIGHTS) {
      complete = false;
      break;
    }
    for (const next of advance(machine, flight, frozen, moved)) {
      if ("landed" in next) {
        const at = `${next.landed.state.key}#${next.landed.tempted.join()}`;
        if (!landings.has(at)) landings.set(at, next.landed);
      } else stack.push(next);
    }
  }
  const restless = landings.size === 0 && complete ? bothWays(machine, moved) : undefined;
  return { landings: [...landings.values()], restless, complete };
}

/** A latch and the way it went, as one number. */
const wayOf = (latch: number, on: boolean): number => latch * 2 + (on ? 1 : 0);

const bothWays = (machine: Machine, moved: ReadonlySet<number>): readonly number[] =>
  machine.circuit.latches.flatMap((_, i) => (moved.has(wayOf(i, true)) && moved.has(wayOf(i, false)) ? [i] : []));

/** Times to 10 µs, each in two characters. */
function flightKey({ state, pending, tempted }: Flight): string {
  let { key } = state;
  for (const { what, least, most } of pending) {
    const [from, to] = [Math.round(least * 1e5), Math.round(most * 1e5)];
    key += String.fromCharCode(what + 1, from >>> 15, from & 0x7fff, to >>> 15, to & 0x7fff);
  }
  return tempted.length === 0 ? key : `${key}#${tempted.join()}`;
}

type Next = Flight | { readonly landed: Landing };

function advance(machine: Machine, flight: Flight, frozen: ReadonlySet<number>, moved: Set<number>): readonly Next[] {
  const { state } = flight;
  const { latches } = machine.circuit;
  const { changing, split } = wantsOf(machine, state, frozen);
  if (split !== undefined)
    return [
      { ...flight, state: withEnd(state, split.latch, split.change) },
      { ...flight, state: withEnd(state, split.latch, split.stay) },
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
  return instant.length > 0 ? [toggled(here, instant, moved)] : launch(machine, here, wanting, moved);
}

const landed = ({ state, events, tempted }: Flight): Next => ({ landed: { state, events: eventsOf(events), tempted } });

function launch(machine: Machine, flight: Flight, wanting: readonly number[], moved: Set<number>): readonly Next[] {
  const { state } = flight;
  const recalled: Pending[] = [];
  const pending: Pending[] = [];
  for (const p of flight.pending) (p.what === PASSAGE || wanting.includes(p.what) ? pending : recalled).push(p);
  for (const i of wanting) {
    if (flight.pending.some((p) => p.what === i)) continue;
    const { least, most } = delayOf(machine.circuit.latches[i] as Latch, state.latches[i] === 0, state);
    pending.push({ what: i, least, most });
  }
  if (pending.length > 1) pending.sort((a, b) => a.what - b.what);
  const next: Next[] = [];
  // A move about to land goes through although its reason has gone; it then finds its way back or not.
  for (const p of recalled)
    if (p.least <= COMMIT_SECONDS) next.push(land(flight, [...pending, p], p, COMMIT_SECONDS, moved));
  if (pending.length === 0) {
    next.push(landed(flight));
    return next;
  }
  let soonest = Infinity;
  for (const p of pending) soonest = Math.min(soonest, p.most);
  for (const p of pending) if (p.least <= soonest) next.push(land(flight, pending, p, soonest, moved));
  return next;
}

/** Lets one pending move land; between its least time and `soonest` has passed. */
function land(flight: Flight, all: readonly Pending[], p: Pending, soonest: number, moved: Set<number>): Flight {
  const elapsed = Math.min(p.most, soonest);
  const pending: Pending[] = [];
  for (const q of all)
    if (q !== p)
      pending.push({ what: q.what, least: Math.max(0, q.least - elapsed), most: Math.max(0, q.most - p.least) });
  if (p.what === PASSAGE) {
    const { input, stand } = flight.passage as Passage;
    const event: Event = { kind: "stand", input, stand };
    return {
      ...flight,
      state: withStand(flight.state, input, stand),
      pending,
      passage: undefined,
      events: { event, before: flight.events },
    };
  }
  return toggled({ ...flight, pending }, [p.what], moved);
}

function toggled(flight: Flight, latches: readonly number[], moved: Set<number>): Flight {
  let { events } = flight;
  for (const latch of latches) {
    const on = flight.state.latches[latch] === 0;
    moved.add(wayOf(latch, on));
    events = { event: { kind: "latch", latch, on }, before: events };
  }
  return { ...flight, state: toggling(flight.state, latches), events };
}

const NONE: ReadonlySet<number> = new Set();

/** Timers that run in a quiet state: latches that will change after a time in which the world may move. */
export function timersOf(machine: Machine, state: State, frozen: ReadonlySet<number> = NONE): readonly number[] {
  const { changing } = wantsOf(machine, state, frozen);
  return changing.filter((i) => isTimer(machine.circuit.latches[i] as Latch, state.latches[i] === 0, state));
}

function eventsOf(trail: Trail | undefined): readonly Event[] {
  const list: Event[] = [];
  for (let t = trail; t !== undefined; t = t.before) list.push(t.event);
  return list.reverse();
}

export interface Rest {
  readonly states: readonly State[];
  readonly restless: readonly number[] | undefined;
}

/** Settles and lets every timer run out, in every order: the rest states. */
export function settleToRest(machine: Machine, from: State, frozen: ReadonlySet<number> = NONE): Rest {
  const rest = new Map<string, State>();
  const seen = new Set<string>();
  const open: State[] = [];
  let restless: readonly number[] | undefined;
  const take = (settled: Settled) => {
    restless ??= settled.restless;
    for (const l of settled.landings) {
      if (seen.has(l.state.key)) continue;
      seen.add(l.state.key);
      open.push(l.state);
    }
  };
  take(settle(machine, from, { frozen }));
  for (let state = open.pop(); state !== undefined; state = open.pop()) {
    const timers = timersOf(machine, state, frozen);
    if (timers.length === 0) rest.set(state.key, state);
    for (const t of timers) take(settle(machine, toggling(state, [t]), { frozen }));
  }
  return { states: [...rest.values()], restless };
}
