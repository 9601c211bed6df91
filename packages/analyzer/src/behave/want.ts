import type { Span } from "@loomproof/netlist";
import type { Latch } from "../circuit/circuit.ts";
import { rounded } from "./machine.ts";
import { END, type State } from "./state.ts";

// What one latch wants at a drive, and how long it takes.

/** What a latch does next at a point: stays, changes, or it depends on which end of its spread the specimen is at. */
export type Want = "stay" | "change" | { readonly change: number; readonly stay: number };

const NO_TIME: Span = { least: 0, most: 0 };

/** How long a latch takes to go on or off; what is cut off goes at once. */
export const delayOf = (latch: Latch, on: boolean, s: State): Span =>
  !on && isCutOff(latch, s) ? NO_TIME : on ? latch.onTime : latch.offTime;

/** Whether it takes so long that the world may move meanwhile. */
export const isTimer = (latch: Latch, on: boolean, s: State): boolean =>
  !(!on && isCutOff(latch, s)) && (on ? latch.onTimer : latch.offTimer);

/** Whether no time passes. */
export const isInstant = (latch: Latch, on: boolean, s: State): boolean =>
  !isTimer(latch, on, s) && delayOf(latch, on, s).most === 0;

/** It goes off at once, whatever drives it: what it needs is off. */
export const isCutOff = (latch: Latch, s: State): boolean => latch.needs !== undefined && s.latches[latch.needs] === 0;

/** What latch `index` wants at this drive, given the ends already chosen in the state. */
export function wantAt(latch: Latch, s: State, index: number, drive: number): Want {
  const isOn = s.latches[index] === 1;
  if (isCutOff(latch, s)) return isOn ? "change" : "stay";
  if (latch.drive.kind === "logic" || latch.drive.kind === "loads") return (drive === 1) === isOn ? "stay" : "change";
  const end = s.ends[index] ?? 0;
  // Any one relay lets go below where it pulls in: one that pulls in at its least holds there, and one that lets go at
  // its most does not pull in there.
  if (isOn) {
    const most = end & END.onLeast ? Math.min(latch.off.most, latch.on.least) : latch.off.most;
    if (drive <= rounded(latch.off.least)) return "change";
    if (drive > rounded(most)) return "stay";
    if (end & END.offLeast) return "stay";
    return end & END.offMost ? "change" : splitOf(s, index);
  }
  const least = end & END.offMost ? Math.max(latch.on.least, latch.off.most) : latch.on.least;
  if (drive >= rounded(latch.on.most)) return "change";
  if (drive < rounded(least)) return "stay";
  if (end & END.onLeast) return "change";
  return end & END.onMost ? "stay" : splitOf(s, index);
}

/** Between the ends of its spread: the specimen decides. */
export const splitOf = (s: State, index: number): Want =>
  s.latches[index] === 1 ? { change: END.offMost, stay: END.offLeast } : { change: END.onLeast, stay: END.onMost };
