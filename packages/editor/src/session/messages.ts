import type { Progress, Report } from "@loomproof/analyzer";
import type { Placed } from "@loomproof/drawing";
import type { DrawingText, Problem, ResolvedLoom } from "@loomproof/netlist";

/** Page to worker. `rev` counts what was opened; the page shows only the newest. */
export interface Ask {
  readonly rev: number;
  readonly text: string;
  /** The drawing of this loom before its file was edited: what it shows stays where it is. */
  readonly drawing: DrawingText | undefined;
}

/** Worker to page, in this order as far as it gets; `checking` comes often. */
export type Answer =
  | { readonly kind: "problems"; readonly rev: number; readonly problems: readonly Problem[] }
  | { readonly kind: "read"; readonly rev: number; readonly loom: ResolvedLoom }
  | { readonly kind: "drawn"; readonly rev: number; readonly placed: Placed }
  | { readonly kind: "checking"; readonly rev: number; readonly progress: Progress }
  | { readonly kind: "proved"; readonly rev: number; readonly report: Report }
  | { readonly kind: "failed"; readonly rev: number; readonly says: string };
