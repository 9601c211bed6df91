import type { BehaviourSeen, Choice, Played, Progress, Report, SoFar } from "@loomproof/analyzer";
import type { Placed } from "@loomproof/drawing";
import type { DrawingText } from "@loomproof/netlist";

/** Page to worker: check this. `rev` counts what was asked; a newer one ends the work on the one before. */
export interface Ask {
  readonly rev: number;
  readonly text: string;
}

/** Worker to page, in this order as far as it gets; `checking` comes often. */
export type Answer =
  | { readonly kind: "begun"; readonly rev: number }
  | { readonly kind: "checking"; readonly rev: number; readonly progress: Looking; readonly soFar?: SoFar }
  | { readonly kind: "proved"; readonly rev: number; readonly report: Report }
  | { readonly kind: "failed"; readonly rev: number; readonly says: string };

/** What is looked at, and how much of the whole lies behind. */
export type Looking = Pick<Progress, "says" | "done">;

/** Page to worker: draw this. */
export interface DrawAsk {
  readonly rev: number;
  readonly text: string;
  /** The drawing of this file before it was edited elsewhere: what it shows stays where it is. */
  readonly like: DrawingText | undefined;
}

export type DrawAnswer =
  | { readonly kind: "drawn"; readonly rev: number; readonly placed: Placed }
  | { readonly kind: "undrawn"; readonly rev: number; readonly says: string };

/** What a panel asks about a loom, beside the check: a worker of its own answers, one question at a time. */
export type Question =
  | { readonly kind: "behaviour"; readonly text: string }
  | { readonly kind: "play"; readonly text: string; readonly moves: string; readonly times: Choice };

/** What each kind of question is answered with. */
export interface Answers {
  readonly behaviour: BehaviourSeen;
  readonly play: Played;
}

/** Worker to page, about the question asked last. */
export type Reply<K extends Question["kind"] = Question["kind"]> =
  | { readonly kind: "looking"; readonly progress: Looking }
  | { readonly kind: "answered"; readonly answer: Answers[K] }
  | { readonly kind: "unanswered"; readonly says: string };
