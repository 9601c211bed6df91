import { movesFrom, type Search, type WorldMove } from "../behave/explore.ts";
import { advance, type Event, eventsOf, type Flight, type Passage, watched, watchOf } from "../behave/flight.ts";
import { type Course, follow } from "../behave/follow.ts";
import type { Machine } from "../behave/machine.ts";
import { timersOf } from "../behave/settle.ts";
import { type State, toggling } from "../behave/state.ts";
import type { RunFacts } from "./facts.ts";

/** One move of the world from a found state, with everything that can happen until all is quiet again. */
export interface Turn {
  /** Index of the found state. */
  readonly from: number;
  readonly move: WorldMove;
  readonly machine: Machine;
  readonly course: Course;
}

/** Every move from every state of one search, some in two ways. Costs about what the search did: asked only where times decide. */
export function* turnsOf({ reachable }: Pick<RunFacts, "reachable">, { machine, first, end }: Search): Generator<Turn> {
  for (let from = first; from < end; from++) {
    const state = reachable.found[from]?.state;
    if (state === undefined) continue;
    for (const latch of timersOf(machine, state))
      yield { from, move: { kind: "timer", latch }, machine, course: follow(machine, toggling(state, [latch])) };
    for (const { move, start, passage } of movesFrom(machine.circuit, state, machine.view?.scope))
      for (const way of handsWay(machine, passage))
        yield { from, move, machine, course: follow(machine, start, { passage: way }) };
  }
}

/**
 * A hand that turns straight on does so when it likes: within its time, and also at once, for what then surely happens.
 * At the corners of the supply it is left out, as in the search.
 */
function handsWay(machine: Machine, passage: Passage | undefined): readonly (Passage | undefined)[] {
  if (passage === undefined || passage.onwards.length === 0) return [passage];
  return machine.patch.supply === "usual" ? [passage, { ...passage, within: 0 }] : [{ ...passage, onwards: [] }];
}

/** Something that lasts for a while on the way. Times in seconds. */
export interface Lasting {
  readonly least: number;
  readonly most: number;
  /** What happened up to its end, the last event first to end it. */
  readonly events: readonly Event[];
}

/** Moments that are followed to time one thing. */
const MOST_MOMENTS = 400;

/** How long something that begins at a flight can last: the shortest and the longest, with the events of the longest. */
export function lastingFrom(machine: Machine, begins: Flight, goesOn: (state: State) => boolean): Lasting | undefined {
  const open: Flight[] = [watched(begins)];
  let found: Lasting | undefined;
  for (let flight = open.pop(), n = 0; flight !== undefined && n < MOST_MOMENTS; flight = open.pop(), n++)
    for (const { landed, flight: next } of advance(machine, flight, NONE)) {
      if (landed) continue;
      if (goesOn(next.state)) {
        open.push(next);
        continue;
      }
      const { least, most } = watchOf(next);
      if (found === undefined || most > found.most)
        found = { least: Math.min(least, found?.least ?? least), most, events: eventsOf(next) };
      else if (least < found.least) found = { ...found, least };
    }
  return found;
}

const NONE: ReadonlySet<number> = new Set();
