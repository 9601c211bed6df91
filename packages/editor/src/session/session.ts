import type { Progress, Report } from "@loomproof/analyzer";
import type { Placed } from "@loomproof/drawing";
import type { Loom } from "@loomproof/netlist";
import type { Answer } from "./messages.ts";

/** A loom as the worker laid it out. */
export interface Drawn {
  readonly loom: Loom;
  readonly placed: Placed;
}

/** What the page knows of the check of the loom that is open. */
export interface Session {
  readonly rev: number;
  /** Which opening it is about. */
  readonly opened: number | undefined;
  /** The loom that is being checked, or was. */
  readonly asked: Loom | undefined;
  /** A loom that came without a drawing, and its layout. */
  readonly drawn: Drawn | undefined;
  /** What is being looked at, while it is. */
  readonly progress: Progress | undefined;
  readonly isChecking: boolean;
  /** A person ended the check before it was through. */
  readonly isStopped: boolean;
  /** The newest report, and the loom that it is about. After an edit it stays until there is a newer one. */
  readonly report: Report | undefined;
  readonly reported: Loom | undefined;
  readonly failure: string | undefined;
}

export const EMPTY: Session = {
  rev: 0,
  opened: undefined,
  asked: undefined,
  drawn: undefined,
  progress: undefined,
  isChecking: false,
  isStopped: false,
  report: undefined,
  reported: undefined,
  failure: undefined,
};

export type Happened =
  /** Another loom. */
  | { readonly kind: "opened"; readonly opened: number | undefined }
  /** A loom was sent to be checked: the one that was opened, or after an edit. */
  | { readonly kind: "asked"; readonly rev: number; readonly loom: Loom }
  | { readonly kind: "stopped" }
  | Answer;

/** What the page knows after something has happened. Answers to what was asked before change nothing. */
export function step(session: Session, happened: Happened): Session {
  if (happened.kind === "opened") return { ...EMPTY, rev: session.rev, opened: happened.opened };
  if (happened.kind === "asked") {
    const { rev, loom } = happened;
    const begun = { progress: undefined, isChecking: true, isStopped: false, failure: undefined };
    return { ...session, ...begun, rev, asked: loom };
  }
  if (happened.kind === "stopped") return { ...session, progress: undefined, isChecking: false, isStopped: true };
  if (happened.rev !== session.rev || session.isStopped) return session;
  const done = { progress: undefined, isChecking: false };
  switch (happened.kind) {
    case "begun":
      return session;
    case "drawn":
      return { ...session, drawn: session.asked && { loom: session.asked, placed: happened.placed } };
    case "checking":
      return { ...session, progress: happened.progress };
    case "proved":
      return { ...session, ...done, report: happened.report, reported: session.asked };
    case "failed":
      return { ...session, ...done, failure: happened.says };
    default:
      return happened satisfies never;
  }
}
