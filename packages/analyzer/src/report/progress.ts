import type { RunFacts } from "../facts/facts.ts";
import type { Finding } from "./report.ts";

/** What is looked at next, in words for the person, and how much of the whole lies behind, 0 to 1. */
export interface Progress {
  readonly says: string;
  readonly done: number;
  /** Where there is more to tell than before. To be asked before the next slice, or not at all: it costs a little. */
  readonly found?: () => SoFar;
}

/** What is known before all is: of the usual run, then of all runs, then with what ends one hold after another. */
export interface SoFar {
  /** Each is so in what was looked at; it may turn out to be graver, to hang on more, or to come along with another. */
  readonly findings: readonly Finding[];
  /** Findings of which it is not known yet what ends them, by id. Their `remedy` is not the last word. */
  readonly uncut: readonly string[];
  /** Whether what is not among the findings is not there. */
  readonly ofAllRuns: boolean;
}

const CORNERS: Readonly<Record<RunFacts["run"]["corner"], string>> = {
  usual: "as usual",
  weak: "hot, with a tired battery",
  strong: "cold, with a full battery",
};

/** A run as a person would call it. */
export function runWords({ run, machine }: RunFacts): string {
  const corner =
    run.corner === "usual" && run.patch.draw === "least" ? "as usual, drawing little" : CORNERS[run.corner];
  if (run.present.length === 0) return corner;
  if (run.present.length > 1) return `${corner}, every unknown pin as bad as it could be`;
  const unknown = machine.circuit.unknowns.find((u) => u.tag === run.present[0]);
  return unknown === undefined ? corner : `${corner}, ${unknown.part} ${unknown.says}`;
}

// Shares of the whole, measured roughly on the two examples: the runs take most of it, then the proofs of what ends a hold.
const RUNS = 0.55;
export const RULES = 0.65;
const CUTS = 0.95;

const between = (from: number, to: number, i: number, count: number): number => from + ((to - from) * i) / count;

export const inRuns = (i: number, count: number): number => between(0, RUNS, i, count);
export const inRules = (i: number, count: number): number => between(RUNS, RULES, i, count);
export const inCuts = (i: number, count: number): number => between(RULES, CUTS, i, count);
export const AT_LAST = CUTS;
