import type { Progress, Report } from "@loomproof/analyzer";
import type { Placed } from "@loomproof/drawing";
import type { Problem, ResolvedLoom } from "@loomproof/netlist";
import type { Answer } from "./messages.ts";

/** A loom to open. */
export interface Opening {
  /** Name of its file. */
  readonly name: string;
  readonly text: string;
  /** Whether it comes with the tool. */
  readonly isExample: boolean;
}

/** What the page knows of the loom that is open. */
export interface Session {
  readonly rev: number;
  readonly opening: Opening | undefined;
  /** The loom that is drawn; while an edit is not yet drawn, the one before it. */
  readonly loom: ResolvedLoom | undefined;
  /** The loom that was read last, to be drawn next. */
  readonly read: ResolvedLoom | undefined;
  readonly placed: Placed | undefined;
  /** What is being looked at, while it is. */
  readonly progress: Progress | undefined;
  /** A person ended the check before it was through. */
  readonly isStopped: boolean;
  readonly report: Report | undefined;
  readonly problems: readonly Problem[];
  readonly failure: string | undefined;
}

export const EMPTY: Session = {
  rev: 0,
  opening: undefined,
  loom: undefined,
  read: undefined,
  placed: undefined,
  progress: undefined,
  isStopped: false,
  report: undefined,
  problems: [],
  failure: undefined,
};

export type Happened =
  | { readonly kind: "opened"; readonly rev: number; readonly opening: Opening }
  | { readonly kind: "edited"; readonly rev: number; readonly opening: Opening }
  | { readonly kind: "stopped" }
  | { readonly kind: "closed" }
  | Answer;

/** What the page knows after something has happened. Answers about a loom that is no longer open change nothing. */
export function step(session: Session, happened: Happened): Session {
  if (happened.kind === "closed") return { ...EMPTY, rev: session.rev };
  if (happened.kind === "opened") return { ...EMPTY, rev: happened.rev, opening: happened.opening };
  if (happened.kind === "edited") {
    const { loom, placed } = session;
    return { ...EMPTY, rev: happened.rev, opening: happened.opening, loom, placed };
  }
  if (happened.kind === "stopped") return { ...session, progress: undefined, isStopped: true };
  if (happened.rev !== session.rev) return session;
  switch (happened.kind) {
    case "problems":
      return { ...session, problems: happened.problems };
    case "read":
      return { ...session, read: happened.loom, loom: session.placed === undefined ? happened.loom : session.loom };
    case "drawn":
      return { ...session, loom: session.read, placed: happened.placed };
    case "checking":
      return { ...session, progress: happened.progress };
    case "proved":
      return { ...session, progress: undefined, report: happened.report };
    case "failed":
      return { ...session, progress: undefined, failure: happened.says };
    default:
      return happened satisfies never;
  }
}
