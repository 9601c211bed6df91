import type { Latch } from "../circuit/circuit.ts";
import { advance, type Event, eventsOf, type Flight, flightKey, type Passage, takeOff } from "./flight.ts";
import { isTimer, type Machine, wantsOf } from "./machine.ts";
import { type State, toggling } from "./state.ts";
import { around, isWithin, type Zone } from "./zone.ts";

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
/**
 * The same with so many different times is something that rattles while something slow is on its way. From then on all
 * times between those met are taken as possible: wider than the truth, and soon done.
 */
const MOST_ZONES = 6;
const NONE: ReadonlySet<number> = new Set();

/**
 * Lets everything on its way land, in every order that the times allow, until nothing but timers is left. Orders that
 * come to the same at times already followed are followed once.
 */
export function settle(machine: Machine, from: State, options: SettleOptions = {}): Settled {
  const frozen = options.frozen ?? NONE;
  const landings = new Map<string, Landing>();
  const followed = new Map<string, Zone[]>();
  const moved = new Set<number>();
  const stack: Flight[] = [takeOff(from, options.passage)];
  let flights = 0;
  let complete = true;
  for (let flight = stack.pop(); flight !== undefined; flight = stack.pop()) {
    const fresh = unfollowed(followed, flight);
    if (fresh === undefined) continue;
    if (++flights > MOST_FLIGHTS) {
      complete = false;
      break;
    }
    for (const next of advance(machine, fresh, frozen)) {
      if (next.landed) {
        const { state, tempted } = next.flight;
        const key = `${state.key}#${tempted.join()}`;
        if (!landings.has(key)) landings.set(key, { state, events: eventsOf(next.flight), tempted });
        continue;
      }
      for (let t = next.flight.events; t !== undefined && t !== flight.events; t = t.before)
        if (t.event.kind === "latch") moved.add(wayOf(t.event.latch, t.event.on));
      stack.push(next.flight);
    }
  }
  const restless = landings.size === 0 && complete ? bothWays(machine, moved) : undefined;
  return { landings: [...landings.values()], restless, complete };
}

/** The flight if some of its times have not been followed yet; they are counted as followed from now on. */
function unfollowed(followed: Map<string, Zone[]>, flight: Flight): Flight | undefined {
  const key = flightKey(flight);
  const zones = followed.get(key);
  if (zones === undefined) {
    followed.set(key, [flight.zone]);
    return flight;
  }
  if (zones.some((z) => isWithin(flight.zone, z))) return undefined;
  if (zones.length < MOST_ZONES) {
    zones.push(flight.zone);
    return flight;
  }
  const zone = zones.reduce(around, flight.zone);
  followed.set(key, [...zones.slice(0, -1), zone]);
  return { ...flight, zone };
}

/** A latch and the way it went, as one number. */
const wayOf = (latch: number, on: boolean): number => latch * 2 + (on ? 1 : 0);

const bothWays = (machine: Machine, moved: ReadonlySet<number>): readonly number[] =>
  machine.circuit.latches.flatMap((_, i) => (moved.has(wayOf(i, true)) && moved.has(wayOf(i, false)) ? [i] : []));

/** Timers that run in a quiet state: latches that will change after a time in which the world may move. */
export function timersOf(machine: Machine, state: State, frozen: ReadonlySet<number> = NONE): readonly number[] {
  const { changing } = wantsOf(machine, state, frozen);
  return changing.filter((i) => isTimer(machine.circuit.latches[i] as Latch, state.latches[i] === 0, state));
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
