import type { Span } from "@loomproof/netlist";
import { advance, takeOff } from "../behave/advance.ts";
import { movesFrom, type WorldMove } from "../behave/explore.ts";
import { type Event, eventsOf, type Flight, turningOn, watched, watchOf } from "../behave/flight.ts";
import type { RunFacts } from "./facts.ts";

/** A hand that turned an input straight on, before all was quiet. */
export interface StraightOn {
  readonly input: number;
  readonly stand: number;
  /** Seconds after the move at which it can be, for all to happen as it did. */
  readonly after: Span;
}

const MOST_MOMENTS = 400;

/** When the hand turned straight on, if it is among what happened after a move from found state `from`. */
export function straightOnIn(
  run: RunFacts,
  from: number,
  move: WorldMove,
  events: readonly Event[],
): StraightOn | undefined {
  const last = events.findIndex((e) => e.kind === "stand" && e.straightOn);
  const turn = events[last];
  const state = run.reachable.found[from]?.state;
  if (turn?.kind !== "stand" || state === undefined) return undefined;
  const { machine } = run.searchOf(from);
  const start = movesFrom(machine.circuit, state, machine.view?.scope).find((m) => isSameMove(m.move, move));
  if (start?.passage === undefined) return undefined;
  const passage = turningOn(start.passage, start.onwards);
  const open: Flight[] = [watched(takeOff(start.start, passage))];
  for (let flight = open.pop(), n = 0; flight !== undefined && n < MOST_MOMENTS; flight = open.pop(), n++)
    for (const { landed, flight: next } of advance(machine, flight)) {
      const own = eventsOf(next);
      if (landed || own.length > last + 1 || !own.every((e, k) => isSameEvent(e, events[k]))) continue;
      if (own.length === last + 1) return { input: turn.input, stand: turn.stand, after: watchOf(next) };
      open.push(next);
    }
  return undefined;
}

const isSameMove = (one: WorldMove, other: WorldMove): boolean => JSON.stringify(one) === JSON.stringify(other);

function isSameEvent(one: Event, other: Event | undefined): boolean {
  if (one.kind === "latch") return other?.kind === "latch" && one.latch === other.latch && one.on === other.on;
  return other?.kind === "stand" && one.input === other.input && one.stand === other.stand;
}
