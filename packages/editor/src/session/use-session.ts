import type { Report } from "@loomproof/analyzer";
import type { Placed } from "@loomproof/drawing";
import type { Problem, ResolvedLoom } from "@loomproof/netlist";
import { useCallback, useEffect, useReducer, useRef } from "react";
import LoomWorker from "./loom.worker.ts?worker&inline";
import type { Answer, Ask } from "./messages.ts";

/** What the page knows of the loom that is open. */
export interface Session {
  readonly rev: number;
  /** Name of the file or scenario. */
  readonly name: string | undefined;
  readonly loom: ResolvedLoom | undefined;
  readonly placed: Placed | undefined;
  readonly report: Report | undefined;
  readonly problems: readonly Problem[];
  readonly failure: string | undefined;
}

const EMPTY: Session = {
  rev: 0,
  name: undefined,
  loom: undefined,
  placed: undefined,
  report: undefined,
  problems: [],
  failure: undefined,
};

type Happened =
  | { readonly kind: "opened"; readonly rev: number; readonly name: string }
  | { readonly kind: "closed" }
  | Answer;

function step(session: Session, happened: Happened): Session {
  if (happened.kind === "closed") return { ...EMPTY, rev: session.rev };
  if (happened.kind === "opened") return { ...EMPTY, rev: happened.rev, name: happened.name };
  if (happened.rev !== session.rev) return session;
  switch (happened.kind) {
    case "problems":
      return { ...session, problems: happened.problems };
    case "read":
      return { ...session, loom: happened.loom };
    case "drawn":
      return { ...session, placed: happened.placed };
    case "proved":
      return { ...session, report: happened.report };
    case "failed":
      return { ...session, failure: happened.says };
    default:
      return happened satisfies never;
  }
}

/** Opens looms in a worker, so that the page never freezes. Opening another ends the work on the one before. */
export function useSession(): {
  readonly session: Session;
  readonly open: (name: string, text: string) => void;
  readonly close: () => void;
} {
  const [session, tell] = useReducer(step, EMPTY);
  const worker = useRef<Worker | undefined>(undefined);
  const rev = useRef(0);
  const stop = useCallback(() => {
    worker.current?.terminate();
    worker.current = undefined;
  }, []);
  useEffect(() => stop, [stop]);
  const open = useCallback(
    (name: string, text: string) => {
      stop();
      const started = new LoomWorker();
      started.onmessage = ({ data }: MessageEvent<Answer>) => tell(data);
      worker.current = started;
      rev.current += 1;
      tell({ kind: "opened", rev: rev.current, name });
      const ask: Ask = { rev: rev.current, text };
      started.postMessage(ask);
    },
    [stop],
  );
  const close = useCallback(() => {
    stop();
    tell({ kind: "closed" });
  }, [stop]);
  return { session, open, close };
}
