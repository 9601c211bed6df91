import type { Span } from "@loomproof/netlist";

// An armature carries its contact from one side to the other, and for a while the contact is in the air. A relay's times
// end when that is over: operate time with the make contact closing (MIL-R-5757J, 6.8, read), release time with the rest
// contact closing (the same and IEC 60050-444, from memory). Where one side has no contact, there is nothing to wait for:
// then they end with the other side opening.

/** Sides of a relay's contacts at which something hangs. */
export type Sides = "make" | "rest" | "both";

/** Times of a relay as its sheet has them, s. */
export interface SheetTimes {
  readonly operateTime: Span;
  readonly releaseTime: Span;
  /** Time for which its contact is in the air: nothing if it has contacts on one side only. */
  readonly transit: Span;
}

/** When a contact arrives at the other side, s. */
export interface Arrival {
  /** Since the coil set its armature moving. */
  readonly inAll: Span;
  /** Since it left its side. */
  readonly inAir: Span;
}

/** Times of the latch of an armature, and of its contact where both sides count. */
export interface Travel {
  readonly onTime: Span;
  readonly offTime: Span;
  readonly arrives: { readonly on: Arrival; readonly off: Arrival } | undefined;
}

/**
 * One latch is enough where one side counts: it moves when that side opens and closes. Where both do, the armature's own
 * latch moves when the contact leaves a side, and another when it arrives at the other.
 */
export function travelOf(sides: Sides, { operateTime, releaseTime, transit }: SheetTimes): Travel {
  const [operate, release] = [partsOf(operateTime, transit), partsOf(releaseTime, transit)];
  switch (sides) {
    case "make":
      return { onTime: operateTime, offTime: release.leaves, arrives: undefined };
    case "rest":
      return { onTime: operate.leaves, offTime: releaseTime, arrives: undefined };
    case "both":
      return {
        onTime: operate.leaves,
        offTime: release.leaves,
        arrives: transit.most === 0 ? undefined : { on: operate.arrives, off: release.arrives },
      };
    default:
      return sides satisfies never;
  }
}

/** The share of its time for which a contact is in the air at most: common practice, no source. */
const MOST_IN_AIR = 0.5;

/** To whole microseconds, as times are reckoned with on the way: so that the parts still make the whole. */
const whole = (seconds: number): number => Math.round(seconds * 1e6) / 1e6;

function partsOf(given: Span, transit: Span): { readonly leaves: Span; readonly arrives: Arrival } {
  const time = { least: whole(given.least), most: whole(given.most) };
  const most = MOST_IN_AIR * time.most;
  const inAir = { least: whole(Math.min(transit.least, most)), most: whole(Math.min(transit.most, most)) };
  const latest = whole(time.most - inAir.least);
  const soonest = Math.max((1 - MOST_IN_AIR) * time.least, time.least - inAir.most);
  // Half of an odd number of microseconds is rounded: the soonest is never later than the latest.
  const leaves = { least: Math.min(whole(soonest), time.least, latest), most: latest };
  return { leaves, arrives: { inAll: time, inAir } };
}
