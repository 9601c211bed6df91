import type { Progress, Report } from "@loomproof/analyzer";
import type { Placed } from "@loomproof/drawing";
import type { DrawingText } from "@loomproof/netlist";

/** Page to worker. `rev` counts what was asked; a newer one ends the work on the one before. */
export interface Ask {
  readonly rev: number;
  readonly text: string;
  /** Whether a drawing is wanted first. */
  readonly draws: boolean;
  /** The drawing of this file before it was edited elsewhere: what it shows stays where it is. */
  readonly like: DrawingText | undefined;
  readonly proves: boolean;
}

/** Worker to page, in this order as far as it gets; `checking` comes often. */
export type Answer =
  | { readonly kind: "begun"; readonly rev: number }
  | { readonly kind: "drawn"; readonly rev: number; readonly placed: Placed }
  | { readonly kind: "checking"; readonly rev: number; readonly progress: Progress }
  | { readonly kind: "proved"; readonly rev: number; readonly report: Report }
  | { readonly kind: "failed"; readonly rev: number; readonly says: string };
