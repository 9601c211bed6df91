import type { Behaviour, TerminalVolts } from "@loomproof/analyzer";

/** A situation of the behaviour table, to be shown on the drawing. */
export interface Situation {
  readonly table: Behaviour;
  /** The how manieth. */
  readonly at: number;
  /** The part that is not as wanted there. */
  readonly ring: string | undefined;
  readonly volts: TerminalVolts;
}
