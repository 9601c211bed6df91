import type { Found } from "../behave/explore.ts";
import { type Event, remaining } from "../behave/flight.ts";
import type { Hold } from "../behave/hold.ts";
import { wantsOf } from "../behave/wants.ts";
import type { RunFacts } from "./facts.ts";
import { type Hand, type Turn, turnsFrom } from "./turns.ts";

/** A contact closed in time: so long before a relay of the ring would have let go. Times in seconds. */
export interface Caught {
  readonly least: number;
  readonly most: number;
  /** The relay that would have let go. */
  readonly latch: number;
  /** What moved in time. */
  readonly closes: Event;
  /** It is caught in every order that the times allow. */
  readonly surely: boolean;
}

/** By how much a hold was caught, on the way by which the search first came to it; undefined if it stands anyway. */
export function caughtIn(run: RunFacts, hold: Hold): Caught | undefined {
  if (hold.kind !== "caught") return undefined;
  // A hand that lets the key stand catches it by less, where it catches it at all.
  return caughtBy("slow", run, hold) ?? caughtBy("searched", run, hold);
}

function caughtBy(hand: Hand, run: RunFacts, hold: Hold): Caught | undefined {
  const { found } = run.reachable;
  const search = run.searchOf(hold.at);
  for (let at = hold.at; at >= search.first; at = (found[at] as Found).before) {
    const { before } = found[at] as Found;
    if (before < search.first) return undefined;
    for (const turn of turnsFrom(run, search, before, { hand })) {
      const caught = caughtOn(turn, hold.ring);
      if (caught !== undefined) return caught;
    }
  }
  return undefined;
}

function caughtOn({ machine, course }: Turn, ring: readonly number[]): Caught | undefined {
  let caught: Caught | undefined;
  const surely = course.moments.every(
    ({ isLanded, flight }) => !isLanded || ring.every((r) => flight.state.latches[r] === 1),
  );
  for (const { flight, isLanded } of course.moments) {
    const closes = flight.events?.event;
    if (isLanded || closes === undefined) continue;
    const { changing } = wantsOf(machine, flight.state);
    for (const latch of ring) {
      if (flight.state.latches[latch] !== 1 || changing.includes(latch)) continue;
      const left = remaining(flight, latch);
      if (left === undefined) continue;
      caught = {
        latch,
        surely,
        closes: caught?.closes ?? closes,
        least: Math.min(left.least, caught?.least ?? left.least),
        most: Math.max(left.most, caught?.most ?? left.most),
      };
    }
  }
  return caught;
}
