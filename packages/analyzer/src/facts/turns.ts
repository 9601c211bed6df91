import { advance } from "../behave/advance.ts";
import { movesFrom, passageTried, type Search, type WorldMove } from "../behave/explore.ts";
import { type Event, eventsOf, type Flight, type Passage, turningOn, watched, watchOf } from "../behave/flight.ts";
import { type Course, follow } from "../behave/follow.ts";
import { byViewAlone, type Machine } from "../behave/machine.ts";
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

export type Hand =
  /** It lets a switch stand until all is quiet. */
  | "slow"
  /** It does what the search tries: it may also turn a key on again that it has turned off. */
  | "searched"
  /** It may also turn straight on: within its time, and at once, for what then surely happens. */
  | "quick";

export interface Followed {
  readonly hand: Hand;
  /** Which moves from which states are asked for; all if left out. */
  readonly asked?: (state: State, move: WorldMove) => boolean;
  /** Told of each that hangs on more than the search moves, and so is left out. */
  readonly left?: () => void;
}

/**
 * Every move from every state of one search. Costs about what the search did, a quick hand several times that: asked only
 * where times decide. A quick hand at the corners of the supply, and what hangs on more than the search moves, is left
 * out.
 */
export function* turnsOf(run: Pick<RunFacts, "reachable">, search: Search, how: Followed): Generator<Turn> {
  for (let from = search.first; from < search.end; from++) yield* turnsFrom(run, search, from, how);
}

/** Every move from one found state. */
export function* turnsFrom(
  { reachable }: Pick<RunFacts, "reachable">,
  { machine }: Search,
  from: number,
  { hand, asked, left }: Followed,
): Generator<Turn> {
  const state = reachable.found[from]?.state;
  if (state === undefined) return;
  const turn = (move: WorldMove, start: State, passage?: Passage): readonly Turn[] => {
    if (asked?.(state, move) === false) return [];
    const course = byViewAlone(machine, () => follow(machine, start, { passage }));
    if (course !== undefined) return [{ from, move, machine, course }];
    left?.();
    return [];
  };
  for (const latch of timersOf(machine, state)) yield* turn({ kind: "timer", latch }, toggling(state, [latch]));
  for (const tried of movesFrom(machine.circuit, state, machine.view?.scope)) {
    const { move, start, passage, onwards } = tried;
    yield* turn(move, start, hand === "searched" ? passageTried(machine.circuit, tried) : passage);
    if (hand !== "quick" || machine.patch.supply !== "usual" || passage === undefined || onwards === undefined)
      continue;
    for (const within of [onwards.within, 0])
      yield* turn(move, start, turningOn(passage, { stands: onwards.stands, within }));
  }
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
    for (const { landed, flight: next } of advance(machine, flight)) {
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
