import type { Span } from "@loomproof/netlist";
import { atLeast, atMost, isCounted, micros, type Zone } from "./zone.ts";

// What is on its way between one move of the world and rest, and when it can land.

/** It lands while a clock shows so much, in microseconds. What was set on its way together shares a clock. */
export interface Limit {
  readonly clock: number;
  readonly least: number;
  readonly most: number;
}

/** A latch on its way, or what stands below for something else. */
export interface Pending {
  readonly what: number;
  /** It lands where all of them allow. */
  readonly limits: readonly Limit[];
  /** Its reason has gone when it was about to land: it may go through all the same, or not. */
  readonly robbed: boolean;
}

/** These are made most of all things: the engine is to see one shape of them. */
export const pendingOf = (what: number, limits: readonly Limit[], robbed: boolean): Pending => ({
  what,
  limits,
  robbed,
});

/** On its way since a clock started, for so many seconds. */
export const onClock = (what: number, clock: number, { least, most }: Span): Pending =>
  pendingOf(what, [{ clock, least: micros(least), most: micros(most) }], false);

/** Stands for a key among what is on its way. */
export const PASSAGE = -1;
/** Stands for a hand that may turn it on from where it has come to. It need not. */
export const ONWARDS = -2;
/** Stands for a clock that somebody watches. Nothing lands by it. */
export const WATCH = -3;

/** Within this time of landing a move whose reason has gone goes through all the same: 0.3 ms, from memory. */
const COMMIT = 300;

/** It lands for certain. A hand that may move, and what has lost its reason, are nothing that anybody waits for. */
export const isUnderWay = ({ what, robbed }: Pending): boolean => what > ONWARDS && !robbed;

/** The most that each clock can show before something that runs on it has landed. */
export function mostOf({ size }: Zone, pending: readonly Pending[]): readonly number[] {
  const most = new Array<number>(size).fill(Number.POSITIVE_INFINITY);
  for (const p of pending)
    if (isUnderWay(p)) for (const l of p.limits) most[l.clock] = Math.min(most[l.clock] as number, l.most);
  return most;
}

/** The times, of those in `during`, at which something lands; undefined if there is none. */
export function landsIn(during: Zone, p: Pending): Zone | undefined {
  let when: Zone | undefined = during;
  for (const { clock, least, most } of p.limits) {
    when = when && atLeast(when, clock, least);
    if (!isUnderWay(p)) when = when && atMost(when, clock, most);
  }
  return when;
}

/** What has just lost its reason, with a clock that starts now; undefined if it is not about to land. */
export function robbedAt({ size, bounds }: Zone, p: Pending, clock: number): Pending | undefined {
  const isNear = p.limits.every((l) => (bounds[l.clock * size] as number) + COMMIT >= l.least);
  return isNear ? pendingOf(p.what, [...p.limits, { clock, least: 0, most: COMMIT }], true) : undefined;
}

/** Whether it can land at all from now on: every limit is open, and the times from opening to closing have something in common. */
export const canLand = ({ size, bounds }: Zone, { limits }: Pending): boolean =>
  limits.every(
    (l) =>
      -(bounds[l.clock] as number) <= l.most &&
      limits.every((o) => l.least - o.most <= (bounds[l.clock * size + o.clock] as number)),
  );

/** Clocks that somebody still looks at, in the order in which that is found: it tells nothing of what came first. */
export function clocksOf(pending: readonly Pending[]): readonly number[] {
  const clocks: number[] = [];
  for (const { limits } of pending) for (const { clock } of limits) if (!clocks.includes(clock)) clocks.push(clock);
  return clocks;
}

/** The same on clocks counted anew: those that are left, in their order. */
export function countedAnew(pending: readonly Pending[], clocks: readonly number[]): readonly Pending[] {
  if (isCounted(clocks)) return pending;
  const anew: Pending[] = [];
  for (const { what, limits, robbed } of pending) {
    const counted: Limit[] = [];
    for (const { clock, least, most } of limits) counted.push({ clock: clocks.indexOf(clock) + 1, least, most });
    anew.push(pendingOf(what, counted, robbed));
  }
  return anew;
}

/** Microseconds until it lands: the least and the most. */
export function untilLanding({ size, bounds }: Zone, { limits }: Pending) {
  return {
    least: Math.max(0, ...limits.map((l) => l.least - (bounds[l.clock * size] as number))),
    most: Math.max(0, Math.min(...limits.map((l) => l.most + (bounds[l.clock] as number)))),
  };
}

/**
 * Microseconds from the landing of one to that of another, which may come first: then less than nothing. Counted from
 * what set them on their way, whatever has happened since.
 */
export function fromTo({ size, bounds }: Zone, { limits: [x] }: Pending, { limits: [y] }: Pending) {
  if (x === undefined || y === undefined) throw new Error("nothing lands without a time");
  const ahead = (a: Limit, b: Limit) => bounds[a.clock * size + b.clock] as number;
  return { least: y.least - x.most - ahead(y, x), most: y.most - x.least + ahead(x, y) };
}
