import type { Circuit } from "../circuit/circuit.ts";

/**
 * What the loom remembers: where each input stands, which latches are on, and which end of its spread each specimen
 * has been found to be at. A history that first depends on a relay's threshold splits once; from then on that relay
 * keeps its end.
 */
export interface State {
  readonly stands: Uint8Array;
  readonly latches: Uint8Array;
  readonly ends: Uint8Array;
  /** What decides the operating point: everything but the ends. */
  readonly pointKey: string;
  /** Two states are the same if their keys are. */
  readonly key: string;
}

/** Ends of the spread of one latch, as bits of `State.ends`. */
export const END = { offLeast: 1, offMost: 2, onLeast: 4, onMost: 8 } as const;

/** Values of `bits` bits each, packed into the characters of a string: states are looked up far more than made. */
function packed(list: Uint8Array, bits: number): string {
  let text = "";
  let word = 0;
  let room = 15;
  for (let i = 0; i < list.length; i++) {
    if (room < bits) {
      text += String.fromCharCode(word);
      word = 0;
      room = 15;
    }
    word = (word << bits) | (list[i] as number);
    room -= bits;
  }
  return text + String.fromCharCode(word);
}

export function stateOf(stands: Uint8Array, latches: Uint8Array, ends: Uint8Array): State {
  const pointKey = packed(stands, 7) + packed(latches, 1);
  return { stands, latches, ends, pointKey, key: pointKey + packed(ends, 4) };
}

/** All inputs where they usually stand, everything out or as delivered. */
export const coldState = (circuit: Circuit): State =>
  stateOf(
    Uint8Array.from(circuit.inputs, (i) => i.usual),
    Uint8Array.from(circuit.latches, (l) => (l.delivered ? 1 : 0)),
    new Uint8Array(circuit.latches.length),
  );

export const withStand = (s: State, input: number, stand: number): State =>
  stateOf(changed(s.stands, input, stand), s.latches, s.ends);

/** The same state with some latches switched to the given position. */
export function withLatches(s: State, latches: readonly number[], on: boolean): State {
  if (latches.length === 0) return s;
  const next = s.latches.slice();
  for (const l of latches) next[l] = on ? 1 : 0;
  return stateOf(s.stands, next, s.ends);
}

/** The same state with some latches the other way round. */
export function toggling(s: State, latches: readonly number[]): State {
  const next = s.latches.slice();
  for (const l of latches) next[l] = next[l] === 1 ? 0 : 1;
  return stateOf(s.stands, next, s.ends);
}

export const withEnd = (s: State, latch: number, end: number): State =>
  stateOf(s.stands, s.latches, changed(s.ends, latch, (s.ends[latch] ?? 0) | end));

function changed(list: Uint8Array, index: number, value: number): Uint8Array {
  const copy = list.slice();
  copy[index] = value;
  return copy;
}
