import type { Latch } from "../circuit/circuit.ts";
import { advance, type Next, takeOff } from "./advance.ts";
import { type Event, eventsOf } from "./flight.ts";
import { type FollowOptions, follow, type Moment } from "./follow.ts";
import type { Machine } from "./machine.ts";
import { type State, toggling } from "./state.ts";
import { isTimer } from "./want.ts";
import { wantsOf } from "./wants.ts";

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
  /** Latches that go on and off again in some order, though they may come to rest: a relay that rattles. */
  readonly rattling: readonly number[];
  /** Moments followed on the way: what it cost, where solves are remembered. */
  readonly moments: number;
  readonly complete: boolean;
}

/** Settles after a move: see `follow`. One landing for each state and each set of what wanted to let go on the way. */
export function settle(machine: Machine, from: State, options: FollowOptions = {}): Settled {
  const { moments, complete } = follow(machine, from, options);
  const landings = new Map<string, Landing>();
  for (const { flight, isLanded } of moments) {
    const { state, tempted } = flight;
    const key = isLanded ? `${state.key}#${tempted.join()}` : undefined;
    if (key !== undefined && !landings.has(key)) landings.set(key, { state, events: eventsOf(flight), tempted });
  }
  const restless = landings.size === 0 && complete ? bothWays(machine, moments) : undefined;
  const rattling = landings.size > 0 && moments.length >= LEAST_ROUND ? roundsOf(machine, moments) : [];
  return { landings: [...landings.values()], restless, rattling, moments: moments.length, complete };
}

/** On, off, on again and rest are no fewer moments than this. */
const LEAST_ROUND = 4;

/** Latches that move both ways between a moment and that same moment come back. */
function roundsOf(machine: Machine, moments: readonly Moment[]): readonly number[] {
  const under = new Uint8Array(moments.length);
  const way: { readonly at: number; next: number }[] = [{ at: 0, next: 0 }];
  const rattling = new Set<number>();
  under[0] = UNDER_WAY;
  for (let top = way.at(-1); top !== undefined; top = way.at(-1)) {
    const to = moments[top.at]?.next[top.next++];
    if (to === undefined) {
      under[top.at] = DONE;
      way.pop();
    } else if (under[to] === UNDER_WAY) {
      const round = way.slice(way.findIndex((w) => w.at === to)).flatMap((w) => moments[w.at] ?? []);
      for (const l of movedBothWays(machine, round)) rattling.add(l);
    } else if (under[to] === 0) {
      under[to] = UNDER_WAY;
      way.push({ at: to, next: 0 });
    }
  }
  return [...rattling].sort((a, b) => a - b);
}

const UNDER_WAY = 1;
const DONE = 2;

/** Latches that are on at one moment of a round and off at another. */
const movedBothWays = ({ circuit }: Machine, round: readonly Moment[]): readonly number[] =>
  [...circuit.latches.keys()].filter((l) =>
    round.some(({ flight }) => flight.state.latches[l] !== round[0]?.flight.state.latches[l]),
  );

function bothWays(machine: Machine, moments: readonly Moment[]): readonly number[] {
  const moved = new Set<number>();
  for (const { flight } of moments)
    for (const e of eventsOf(flight)) if (e.kind === "latch") moved.add(wayOf(e.latch, e.on));
  return machine.circuit.latches.flatMap((_, i) =>
    moved.has(wayOf(i, true)) && moved.has(wayOf(i, false)) ? [i] : [],
  );
}

/** A latch and the way it went, as one number. */
const wayOf = (latch: number, on: boolean): number => latch * 2 + (on ? 1 : 0);

/** Timers that run in a quiet state: latches that will change after a time in which the world may move. */
export function timersOf(machine: Machine, state: State, frozen?: ReadonlySet<number>): readonly number[] {
  const { changing } = wantsOf(machine, state, frozen);
  return changing.filter((i) => isTimer(machine.circuit.latches[i] as Latch, state.latches[i] === 0, state));
}

export interface Rest {
  readonly states: readonly State[];
  readonly restless: readonly number[] | undefined;
}

/** Settles and lets every timer run out, in every order: the rest states. */
export function settleToRest(machine: Machine, from: State, frozen?: ReadonlySet<number>): Rest {
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

/** Steps on the way to one rest state, after which it is left. */
const MOST_STEPS = 500;

interface OneRestOptions {
  readonly frozen?: ReadonlySet<number>;
  /** Of several that can land next the last is taken, not the first. */
  readonly takesLast?: boolean;
}

/**
 * One of the rest states of `settleToRest`, for much less; undefined if the first way that is taken comes to none. Enough
 * where it only takes one to say so.
 */
export function oneRest(machine: Machine, from: State, options: OneRestOptions = {}): State | undefined {
  const { frozen, takesLast = false } = options;
  let flight = takeOff(from, undefined);
  for (let step = 0; step < MOST_STEPS; step++) {
    const next = advance(machine, flight, frozen);
    const onTime = (n: Next) => !n.late;
    const taken = (takesLast ? next.findLast(onTime) : next.find(onTime)) ?? next[0];
    if (taken === undefined) return undefined;
    flight = taken.flight;
    if (!taken.landed) continue;
    const [timer] = timersOf(machine, flight.state, frozen);
    if (timer === undefined) return flight.state;
    flight = takeOff(toggling(flight.state, [timer]), undefined);
  }
  return undefined;
}
