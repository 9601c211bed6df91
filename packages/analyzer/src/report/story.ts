import type { WorldMove } from "../behave/explore.ts";
import type { Event } from "../behave/flight.ts";
import type { RunFacts } from "../facts/facts.ts";
import { straightOnIn } from "../facts/straight-on.ts";
import { eventsWords, moveSet } from "../facts/words.ts";
import type { Sighting } from "../rules/rule.ts";
import type { MoveSeen } from "./report.ts";

/** The moves by which a finding comes about, from power on. */
export function storyOf({ run, at, after }: Sighting): readonly MoveSeen[] {
  if (run === undefined) return [];
  if (after === undefined) return at === undefined ? [] : movesTo(run, at);
  const { from, move, events = [], says } = after;
  return [...movesTo(run, from), moveSeen(run, from, move, events, says)];
}

/** The shortest story that leads there. */
function movesTo(run: RunFacts, at: number): readonly MoveSeen[] {
  const { found } = run.reachable;
  const moves: MoveSeen[] = [];
  for (let i = at; i >= 0; i = found[i]?.before ?? -1) {
    const f = found[i];
    if (f === undefined) break;
    moves.unshift(moveSeen(run, f.before, f.move, f.events, eventsWords(run.machine.circuit, f.events)));
  }
  return moves;
}

function moveSeen(
  run: RunFacts,
  from: number,
  move: WorldMove,
  events: readonly Event[],
  then: readonly string[],
): MoveSeen {
  const { circuit } = run.machine;
  const set = moveSet(circuit, move);
  const on = straightOnIn(run, from, move, events);
  const input = circuit.inputs[on?.input ?? -1];
  if (on === undefined || input === undefined) return { set, then };
  const ms = (seconds: number): number => Math.round(seconds * 1e6) / 1e3;
  const straightOn = {
    input: input.id,
    position: input.stands[on.stand] ?? "",
    least: ms(on.after.least),
    most: ms(on.after.most),
  };
  return { set, then, straightOn };
}
