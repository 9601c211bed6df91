import { drawingOf } from "@loomproof/drawing";
import { type DrawingText, type Loom, write } from "@loomproof/netlist";
import { useCallback, useEffect, useReducer, useRef } from "react";
import { drawOnce } from "./draw-once.ts";
import LoomWorker from "./loom.worker.ts?worker&inline";
import type { Answer, Ask, DrawAsk } from "./messages.ts";
import type { OpenDocument } from "./open-document.ts";
import { EMPTY, type Session, step } from "./session.ts";

/** So long after an edit nothing is begun: a person who types has not said all yet. */
const QUIET_MS = 300;
/** A worker that does not hear for so long is deep in something: it is ended and another begins. */
const DEAF_MS = 400;

/** On two cores a drawing and a check only wait for each other, and the drawing is what a person looks for first. */
const isCrowded = (): boolean => navigator.hardwareConcurrency <= 2;
const NOTHING = () => {};

/** What the findings hang on: not where a symbol stands, nor what people say of it. */
export const electrical = ({ drawing: _, ...loom }: Loom): string => write({ ...loom, remarks: [] });

/** Has the open loom drawn, if it has no drawing, and proved beside that, in workers; after each edit proved again. */
export function useChecking(document: OpenDocument | undefined): {
  readonly session: Session;
  readonly stop: () => void;
  readonly again: () => void;
} {
  const [session, tell] = useReducer(step, EMPTY);
  const worker = useRef<Worker | undefined>(undefined);
  const deaf = useRef(0);
  /** Whether it has said anything yet: one that only begins to run would be ended for nothing, and the next one too. */
  const runs = useRef(false);
  const rev = useRef(0);
  /** What was asked last. */
  const last = useRef<{ readonly opened: number; readonly of: string } | undefined>(undefined);
  const endDrawing = useRef(() => {});
  const end = useCallback(() => {
    clearTimeout(deaf.current);
    worker.current?.terminate();
    worker.current = undefined;
  }, []);
  const endAll = useCallback(() => {
    end();
    endDrawing.current();
  }, [end]);
  useEffect(() => endAll, [endAll]);
  const draw = useCallback((ask: DrawAsk, then: () => void) => {
    endDrawing.current();
    endDrawing.current = drawOnce(ask, (answer) => {
      tell(answer);
      then();
    });
  }, []);
  /** The worker that checks, begun if there is none. */
  const checker = useCallback((): Worker => {
    if (worker.current !== undefined) return worker.current;
    runs.current = false;
    const begun = new LoomWorker();
    begun.onmessage = ({ data }: MessageEvent<Answer>) => {
      runs.current = true;
      if (data.rev === rev.current) clearTimeout(deaf.current);
      tell(data);
    };
    begun.onerror = (event) => tell({ kind: "failed", rev: rev.current, says: event.message });
    worker.current = begun;
    return begun;
  }, []);
  const send = useCallback(
    (ask: Ask) => {
      clearTimeout(deaf.current);
      if (worker.current !== undefined && runs.current)
        deaf.current = window.setTimeout(() => {
          end();
          send(ask);
        }, DEAF_MS);
      checker().postMessage(ask);
    },
    [checker, end],
  );
  const { opened, loom, name } = document ?? {};
  /** Of the files opened last, by name: one that was edited elsewhere is drawn like before. */
  const drawings = useRef(new Map<string, DrawingText>());
  useEffect(() => {
    const drawing = loom?.drawing ?? (session.drawn && session.opened === opened && drawingOf(session.drawn.placed));
    if (drawing && name) remember(drawings.current, name, drawing);
  }, [loom, name, opened, session.drawn, session.opened]);
  const ask = useCallback(
    (loom: Loom, of: string, isDrawn: boolean) => {
      rev.current += 1;
      tell({ kind: "asked", rev: rev.current, loom });
      const asked = rev.current;
      // Once a drawing has come, something newer may have been asked.
      const check = () => {
        if (asked === rev.current) send({ rev: asked, text: of });
      };
      const draws = !isDrawn && loom.drawing === undefined && loom.parts.length > 0;
      const waits = draws && isCrowded();
      if (draws) draw({ rev: asked, text: of, like: drawings.current.get(name ?? "") }, waits ? check : NOTHING);
      if (waits) checker();
      else check();
    },
    [send, draw, checker, name],
  );
  const isDrawn = session.drawn !== undefined;
  // biome-ignore lint/correctness/useExhaustiveDependencies: that a drawing has come is no reason to ask again
  useEffect(() => {
    if (opened === undefined || loom === undefined) {
      last.current = undefined;
      endAll();
      tell({ kind: "opened", opened });
      return;
    }
    const of = electrical(loom);
    const before = last.current;
    if (before?.opened !== opened) {
      last.current = { opened, of };
      tell({ kind: "opened", opened });
      endDrawing.current();
      ask(loom, of, false);
      return;
    }
    if (before.of === of) return;
    const timer = setTimeout(() => {
      last.current = { opened, of };
      ask(loom, of, isDrawn);
    }, QUIET_MS);
    return () => clearTimeout(timer);
  }, [opened, loom, ask, endAll]);
  const stop = useCallback(() => {
    endAll();
    tell({ kind: "stopped" });
  }, [endAll]);
  const again = useCallback(() => {
    if (loom !== undefined) ask(loom, electrical(loom), isDrawn);
  }, [loom, ask, isDrawn]);
  return { session, stop, again };
}

/** So many drawings are remembered. */
const MOST_DRAWINGS = 4;

function remember(drawings: Map<string, DrawingText>, name: string, drawing: DrawingText): void {
  drawings.delete(name);
  drawings.set(name, drawing);
  const [oldest] = drawings.keys();
  if (drawings.size > MOST_DRAWINGS && oldest !== undefined) drawings.delete(oldest);
}
