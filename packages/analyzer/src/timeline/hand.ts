import type { Circuit, Input, Move } from "../circuit/circuit.ts";
import { type Choice, timeOf } from "./choice.ts";

/**
 * One move of the world: an input to a stand, at a time in seconds from the start of the script, so many seconds after
 * the move before, when all has come to rest, or together with the move before.
 */
export interface ScriptMove {
  readonly at: number | { readonly later: number } | "rest" | "at once";
  readonly input: number;
  readonly stand: number;
}

/** A stand that an input takes, so long after the move begins. */
export interface Stop {
  readonly after: number;
  readonly stand: number;
}

/**
 * The stands that an input passes on its way from one to another: neighbour by neighbour, each with what it joins in
 * passing. A hand needs the passing time for each.
 */
export function stopsBetween(circuit: Circuit, input: number, from: number, to: number, choice: Choice): Stop[] {
  const { moves } = circuit.inputs[input] as Input;
  const stops: Stop[] = [];
  let after = 0;
  for (const [k, move] of wayBetween(moves, from, to).entries()) {
    const passing = timeOf(move.seconds, choice);
    if (k > 0 && move.via === undefined) after += passing;
    if (move.via !== undefined) {
      stops.push({ after, stand: move.via });
      after += passing;
    }
    stops.push({ after, stand: move.to });
  }
  return stops.length === 0 && from !== to ? [{ after: 0, stand: to }] : stops;
}

/** The shortest chain of moves. From the midst of a passage there is none: then the input jumps. */
function wayBetween(moves: readonly Move[], from: number, to: number): readonly Move[] {
  const before = new Map<number, Move | undefined>([[from, undefined]]);
  const open = [from];
  for (let at = open.shift(); at !== undefined && at !== to; at = open.shift())
    for (const move of moves)
      if (move.from === at && !before.has(move.to)) {
        before.set(move.to, move);
        open.push(move.to);
      }
  const way: Move[] = [];
  for (let move = before.get(to); move !== undefined; move = before.get(move.from)) way.unshift(move);
  return way;
}
