import { advance, takeOff } from "./advance.ts";
import { type Flight, flightIn, flightKey, type Passage } from "./flight.ts";
import type { Machine } from "./machine.ts";
import type { State } from "./state.ts";
import { around, isWithin, type Zone } from "./zone.ts";

/** A moment after something has landed, and what can come next. */
export interface Moment {
  readonly flight: Flight;
  /** Moments that can follow, by index; and those at which something went through although its reason had gone. */
  readonly next: readonly number[];
  readonly late: readonly number[];
  /** Moments at which this one is quiet: each landing is a moment of its own, after which nothing comes. */
  readonly isLanded: boolean;
}

/** Everything that can happen between one move of the world and quiet. The first moment is the move itself. */
export interface Course {
  readonly moments: readonly Moment[];
  readonly complete: boolean;
}

export interface FollowOptions {
  readonly passage?: Passage | undefined;
  /** Latches held where they are, whatever drives them. */
  readonly frozen?: ReadonlySet<number> | undefined;
}

/** Flights followed from one move before the rest is left and said so. */
const MOST_FLIGHTS = 4000;
/**
 * The same with so many different times is something that rattles while something slow is on its way. From then on all
 * times between those met are taken as possible: wider than the truth, and soon done.
 */
const MOST_ZONES = 6;
/**
 * Lets everything on its way land, in every order that the times allow, until nothing but timers is left. Orders that
 * come to the same at times already followed are followed once.
 */
export function follow(machine: Machine, from: State, options: FollowOptions = {}): Course {
  const frozen = options.frozen;
  const moments: Moment[] = [];
  const followed = new Map<string, Followed[]>();
  const stack: { readonly flight: Flight; readonly after: number[] }[] = [
    { flight: takeOff(from, options.passage), after: [] },
  ];
  let flights = 0;
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    const { flight, after } = top;
    const key = flightKey(flight);
    const before = followed.get(key);
    const same = before?.find((f) => isWithin(flight.zone, f.zone));
    if (same !== undefined) {
      after.push(same.moment);
      continue;
    }
    if (++flights > MOST_FLIGHTS) return { moments, complete: false };
    const moment = moments.length;
    const next: number[] = [];
    const late: number[] = [];
    const here = before === undefined ? flight : widened(before, flight);
    moments.push({ flight: here, next, late, isLanded: false });
    after.push(moment);
    if (before === undefined) followed.set(key, [{ zone: flight.zone, moment }]);
    else before.push({ zone: here.zone, moment });
    for (const { landed, late: isLate, flight: to } of advance(machine, here, frozen)) {
      if (!landed) {
        stack.push({ flight: to, after: isLate ? late : next });
        continue;
      }
      next.push(moments.length);
      moments.push({ flight: to, next: NOWHERE, late: NOWHERE, isLanded: true });
    }
  }
  return { moments, complete: true };
}

const NOWHERE: readonly number[] = [];

interface Followed {
  readonly zone: Zone;
  readonly moment: number;
}

function widened(before: readonly Followed[], flight: Flight): Flight {
  if (before.length < MOST_ZONES) return flight;
  return flightIn(
    flight,
    before.reduce((zone, f) => around(zone, f.zone), flight.zone),
  );
}
