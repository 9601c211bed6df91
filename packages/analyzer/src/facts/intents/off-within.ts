import type { Edge } from "../../behave/explore.ts";
import type { Event } from "../../behave/flight.ts";
import { timersOf } from "../../behave/settle.ts";
import type { State } from "../../behave/state.ts";
import { delayOf } from "../../behave/want.ts";
import type { Circuit, Latch, Wanted } from "../../circuit/circuit.ts";
import { type Doer, type Telling, tellingOf } from "../doing.ts";
import type { Facts, RunFacts } from "../facts.ts";
import { foundAt } from "../found.ts";
import { meeting } from "../situation.ts";
import { type Judging, TOO_MANY } from "./breach.ts";
import { wholeWith } from "./only-when.ts";

/** Ways through timers that are followed from one state. */
const MOST_STEPS = 2000;

/** A timer that runs, with the seconds that are left to it. */
interface Running {
  readonly latch: number;
  readonly least: number;
  readonly most: number;
}

interface Step {
  readonly at: number;
  readonly running: readonly Running[];
  /** Seconds that timers have taken so far, and the most that moving relays may have added. */
  readonly least: number;
  readonly most: number;
  readonly moving: number;
}

/**
 * On in a situation at rest: it never goes off. Else the longest that timers keep it on after the situation has begun,
 * while nobody touches anything.
 */
export function judgeOffWithin(
  facts: Facts,
  wish: Extract<Wanted, { readonly kind: "off within" }>,
  doer: Doer,
  judging: Judging,
): void {
  for (const run of facts.runs)
    for (const telling of tellingOf(run, doer)) {
      const leaving = edgesFrom(run, telling);
      for (let at = telling.first; at < telling.end; at++) {
        const on = telling.doing(at);
        if (on === "off") continue;
        const stands = meeting(run, at, wish.after);
        if (stands === "too many") judging.missing.add(TOO_MANY);
        if (stands === undefined || stands === "too many") continue;
        const { state, rest } = foundAt(run, at);
        const about = () => ({ state: wholeWith(run, at, stands), ends: state.ends });
        if (rest) {
          judging.breach(run, at, { kind: "never goes off", on }, about());
          continue;
        }
        const longest = longestOn(run, telling, leaving, at);
        if (longest === undefined) judging.missing.add("too many timers run at once");
        else if (longest.most > wish.seconds) {
          const ends = longest.least > wish.seconds ? state.ends : undefined;
          judging.breach(run, at, { kind: "goes off late", seconds: longest.most }, { ...about(), ends });
        } else if (longest.most + longest.moving > wish.seconds)
          judging.missing.add("how many milliseconds its relays take together; that decides here");
      }
      judgeMoving(run, telling, wish, judging);
    }
}

/** What goes off at once by no timer still waits for its relays: told apart where the limit is that short. */
function judgeMoving(
  run: RunFacts,
  { first, end, doing }: Telling,
  wish: Extract<Wanted, { readonly kind: "off within" }>,
  judging: Judging,
): void {
  for (const { from, to, move, events } of run.reachable.edges) {
    if (from < first || to >= end || to < first || move.kind !== "inputs") continue;
    if (doing(from) === "off" || doing(to) !== "off" || meeting(run, to, wish.after) === undefined) continue;
    if (movingIn(run.machine.circuit, foundAt(run, from).state, events) > wish.seconds)
      judging.missing.add("how many milliseconds its relays take together; that decides here");
  }
}

function edgesFrom(run: RunFacts, { first, end }: Telling): ReadonlyMap<number, readonly Edge[]> {
  const by = new Map<number, Edge[]>();
  for (const e of run.reachable.edges) {
    if (e.move.kind !== "timer" || e.from < first || e.from >= end) continue;
    const list = by.get(e.from);
    if (list === undefined) by.set(e.from, [e]);
    else list.push(e);
  }
  return by;
}

/** How long it may stay on from here through timers alone; undefined if there are too many ways. */
function longestOn(
  run: RunFacts,
  { doing }: Telling,
  leaving: ReadonlyMap<number, readonly Edge[]>,
  start: number,
): Step | undefined {
  const { circuit } = run.machine;
  const { machine } = run.searchOf(start);
  const stateAt = (at: number) => foundAt(run, at).state;
  const runningAt = (
    at: number,
    before: readonly Running[],
    elapsed: readonly [number, number],
  ): readonly Running[] => {
    const state = stateAt(at);
    return timersOf(machine, state).map((latch) => {
      const going = before.find((r) => r.latch === latch);
      if (going !== undefined)
        return { latch, least: Math.max(0, going.least - elapsed[1]), most: Math.max(0, going.most - elapsed[0]) };
      return { latch, ...delayOf(circuit.latches[latch] as Latch, state.latches[latch] === 0, state) };
    });
  };
  let longest: Step = { at: start, running: runningAt(start, [], [0, 0]), least: 0, most: 0, moving: 0 };
  const open: Step[] = [longest];
  for (let steps = 0, step = open.pop(); step !== undefined; step = open.pop()) {
    if (++steps > MOST_STEPS) return undefined;
    const { at, running } = step;
    const soonest = Math.min(...running.map((r) => r.most));
    for (const edge of leaving.get(at) ?? []) {
      const timer = edge.move.kind === "timer" ? edge.move.latch : -1;
      const own = running.find((r) => r.latch === timer);
      if (own === undefined || own.least > soonest) continue;
      const elapsed = [own.least, Math.min(own.most, soonest)] as const;
      const next: Step = {
        at: edge.to,
        running: [],
        least: step.least + elapsed[0],
        most: step.most + elapsed[1],
        moving: step.moving + movingIn(circuit, stateAt(at), edge.events),
      };
      if (next.most > longest.most || (next.most === longest.most && next.moving > longest.moving)) longest = next;
      if (doing(edge.to) !== "off") open.push({ ...next, running: runningAt(edge.to, running, elapsed) });
    }
  }
  return longest;
}

/** The most that what moves without a timer may take, one after the other. */
const movingIn = (circuit: Circuit, state: State, events: readonly Event[]): number =>
  events.reduce((sum, e) => {
    if (e.kind !== "latch") return sum;
    const latch = circuit.latches[e.latch] as Latch;
    const isTimer = e.on ? latch.onTimer : latch.offTimer;
    return isTimer ? sum : sum + delayOf(latch, e.on, state).most;
  }, 0);
