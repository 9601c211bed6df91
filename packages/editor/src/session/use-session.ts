import type { Placed } from "@loomproof/drawing";
import { useCallback, useEffect, useReducer, useRef } from "react";
import LoomWorker from "./loom.worker.ts?worker&inline";
import type { Answer, Ask } from "./messages.ts";
import { EMPTY, type Opening, type Session, step } from "./session.ts";

/** So many drawings are remembered, by the name of their file. */
const MOST_DRAWINGS = 4;

/** Opens looms in a worker, so that the page never freezes. Opening another ends the work on the one before. */
export function useSession(): {
  readonly session: Session;
  readonly open: (opening: Opening) => void;
  /** The open loom after an edit: its drawing stays until the new one is there. */
  readonly change: (opening: Opening) => void;
  readonly stop: () => void;
  readonly close: () => void;
} {
  const [session, tell] = useReducer(step, EMPTY);
  const worker = useRef<Worker | undefined>(undefined);
  const rev = useRef(0);
  const drawings = useRef(new Map<string, Placed>());
  const end = useCallback(() => {
    worker.current?.terminate();
    worker.current = undefined;
  }, []);
  useEffect(() => end, [end]);
  const start = useCallback(
    (kind: "opened" | "edited", opening: Opening) => {
      end();
      rev.current += 1;
      const current = rev.current;
      const started = new LoomWorker();
      started.onmessage = ({ data }: MessageEvent<Answer>) => {
        if (data.kind === "drawn") remember(drawings.current, opening.name, data.placed);
        tell(data);
      };
      started.onerror = (event) => tell({ kind: "failed", rev: current, says: event.message });
      worker.current = started;
      tell({ kind, rev: current, opening });
      const ask: Ask = { rev: current, text: opening.text, keep: drawings.current.get(opening.name) };
      started.postMessage(ask);
    },
    [end],
  );
  const open = useCallback((opening: Opening) => start("opened", opening), [start]);
  const change = useCallback((opening: Opening) => start("edited", opening), [start]);
  const stop = useCallback(() => {
    end();
    tell({ kind: "stopped" });
  }, [end]);
  const close = useCallback(() => {
    end();
    tell({ kind: "closed" });
  }, [end]);
  return { session, open, change, stop, close };
}

function remember(drawings: Map<string, Placed>, name: string, placed: Placed): void {
  drawings.delete(name);
  drawings.set(name, placed);
  const [oldest] = drawings.keys();
  if (drawings.size > MOST_DRAWINGS && oldest !== undefined) drawings.delete(oldest);
}
