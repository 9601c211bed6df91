import type { State } from "../behave/state.ts";
import type { Choice } from "./choice.ts";
import type { Moment } from "./step.ts";

/** Something that happened, in seconds from the start of the script. */
export type Happening =
  /** The script moves an input. */
  | { readonly kind: "move"; readonly seconds: number; readonly input: number; readonly stand: number }
  /** It reaches a stand on its way, the last one included. */
  | { readonly kind: "stand"; readonly seconds: number; readonly input: number; readonly stand: number }
  /** A drive has passed its threshold: the latch follows. */
  | { readonly kind: "begins"; readonly seconds: number; readonly latch: number; readonly on: boolean }
  /** It came back before the latch had moved, which would have been at `due`. */
  | {
      readonly kind: "recalled";
      readonly seconds: number;
      readonly latch: number;
      readonly on: boolean;
      readonly due: number;
    }
  /** It has landed, the state has changed. */
  | { readonly kind: "latch"; readonly seconds: number; readonly latch: number; readonly on: boolean };

/** Volts and currents at one moment. Before and after an event there is one sample each, at the same time. */
export interface Sample {
  readonly seconds: number;
  readonly state: State;
  readonly closed: Uint8Array;
  readonly moment: Moment;
}

export interface Run {
  readonly samples: readonly Sample[];
  readonly happenings: readonly Happening[];
  /** Nothing moves any more; or the budget of steps was spent first; or latches that take no time drive each other. */
  readonly end: "at rest" | "never at rest" | "buzzes";
  readonly state: State;
  readonly steps: number;
}

export interface RunOptions {
  readonly choice: Choice;
  /** Largest error of one step, as a share of a coil's rated current or of the system volts. */
  readonly tolerance?: number;
  /** Steps from the last move after which a run that does not come to rest is given up. */
  readonly budget?: number;
}
