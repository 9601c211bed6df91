import type { Circuit } from "../circuit/circuit.ts";
import { bitsText } from "./key-text.ts";

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

/** Keys are worked out when they are asked for; a state made from another takes over those of what has not moved. */
class Remembered implements State {
  readonly stands: Uint8Array;
  readonly latches: Uint8Array;
  readonly ends: Uint8Array;
  #standsKey: string | undefined;
  #latchesKey: string | undefined;
  #endsKey: string | undefined;
  #pointKey: string | undefined;
  #key: string | undefined;

  constructor(stands: Uint8Array, latches: Uint8Array, ends: Uint8Array, from?: State) {
    this.stands = stands;
    this.latches = latches;
    this.ends = ends;
    if (!(from instanceof Remembered)) return;
    if (from.stands === stands) this.#standsKey = from.#standsKey;
    if (from.latches === latches) this.#latchesKey = from.#latchesKey;
    if (from.ends === ends) this.#endsKey = from.#endsKey;
  }

  get pointKey(): string {
    this.#standsKey ??= bitsText(this.stands, 7);
    this.#latchesKey ??= bitsText(this.latches, 1);
    this.#pointKey ??= this.#standsKey + this.#latchesKey;
    return this.#pointKey;
  }

  get key(): string {
    this.#endsKey ??= bitsText(this.ends, 4);
    this.#key ??= this.pointKey + this.#endsKey;
    return this.#key;
  }
}

export const stateOf = (stands: Uint8Array, latches: Uint8Array, ends: Uint8Array, from?: State): State =>
  new Remembered(stands, latches, ends, from);

/** All inputs where they usually stand, everything out or as delivered. */
export const coldState = (circuit: Circuit): State =>
  stateOf(
    Uint8Array.from(circuit.inputs, (i) => i.usual),
    Uint8Array.from(circuit.latches, (l) => (l.delivered ? 1 : 0)),
    new Uint8Array(circuit.latches.length),
  );

export const withStand = (s: State, input: number, stand: number): State =>
  stateOf(changed(s.stands, input, stand), s.latches, s.ends, s);

/** The same state with some latches switched to the given position. */
export function withLatches(s: State, latches: readonly number[], on: boolean): State {
  if (latches.length === 0) return s;
  const next = s.latches.slice();
  for (const l of latches) next[l] = on ? 1 : 0;
  return stateOf(s.stands, next, s.ends, s);
}

/** The same state with some armatures, and the contacts they carry, switched to the given position. */
export const withRelays = ({ latches }: Circuit, s: State, armatures: readonly number[], on: boolean): State =>
  withLatches(
    s,
    armatures.flatMap((a) => [a, latches[a]?.carries?.latch ?? a]),
    on,
  );

/** The same state with some latches the other way round. */
export function toggling(s: State, latches: readonly number[]): State {
  const next = s.latches.slice();
  for (const l of latches) next[l] = next[l] === 1 ? 0 : 1;
  return stateOf(s.stands, next, s.ends, s);
}

export const withEnd = (s: State, latch: number, end: number): State =>
  stateOf(s.stands, s.latches, changed(s.ends, latch, (s.ends[latch] ?? 0) | end), s);

function changed(list: Uint8Array, index: number, value: number): Uint8Array {
  const copy = list.slice();
  copy[index] = value;
  return copy;
}
