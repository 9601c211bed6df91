import type { Report } from "@loomproof/analyzer";
import type { Placed } from "@loomproof/drawing";
import type { Loom } from "@loomproof/netlist";
import { type Listed, listedIn, listedSoFar } from "./listed.ts";
import type { Answer, DrawAnswer, Looking } from "./messages.ts";

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
  readonly progress: Looking | undefined;
  readonly isChecking: boolean;
  /** A person ended the check before it was through. */
  readonly isStopped: boolean;
  /** The newest report, and the loom that it is about. After an edit it stays until there is a newer one. */
  readonly report: Report | undefined;
  readonly reported: Loom | undefined;
  /** The findings as far as they are known: of the report, and of the check that is under way. */
  readonly listed: readonly Listed[] | undefined;
  /** Why there is no check, or no drawing. */
  readonly failure: string | undefined;
  readonly undrawn: string | undefined;
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
  listed: undefined,
  failure: undefined,
  undrawn: undefined,
};

export type Happened =
  /** Another loom. */
  | { readonly kind: "opened"; readonly opened: number | undefined }
  /** A loom was sent to be checked: the one that was opened, or after an edit. */
  | { readonly kind: "asked"; readonly rev: number; readonly loom: Loom }
  | { readonly kind: "stopped" }
  | Answer
  | DrawAnswer;

/** What the page knows after something has happened. Answers to what was asked before change nothing. */
export function step(session: Session, happened: Happened): Session {
  if (happened.kind === "opened") return { ...EMPTY, rev: session.rev, opened: happened.opened };
  if (happened.kind === "asked") {
    const { rev, loom } = happened;
    const begun = { progress: undefined, isChecking: true, isStopped: false, failure: undefined, undrawn: undefined };
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
    case "undrawn":
      return { ...session, undrawn: happened.says };
    case "checking": {
      const { progress, soFar } = happened;
      const { asked, listed = [] } = session;
      if (soFar === undefined || asked === undefined) return { ...session, progress };
      return { ...session, progress, listed: listedSoFar(listed, soFar, asked) };
    }
    case "proved": {
      const { report } = happened;
      const { asked } = session;
      return { ...session, ...done, report, reported: asked, listed: asked && listedIn(report, asked) };
    }
    case "failed":
      return { ...session, ...done, failure: happened.says };
    default:
      return happened satisfies never;
  }
}
