import { drawingOf } from "@loomproof/drawing";
import { type Loom, write } from "@loomproof/netlist";
import { useCallback, useEffect, useRef, useState } from "react";
import DrawWorker from "./draw.worker.ts?worker&inline";
import type { Edit } from "./editing.ts";
import type { DrawAnswer, DrawAsk } from "./messages.ts";

/** Lays a loom out afresh on request, in a worker of its own. What is edited meanwhile finds its place in it. */
export function useArrange(loom: Loom | undefined, edit: Edit, tell: (says: string) => void) {
  const worker = useRef<Worker | undefined>(undefined);
  const [isArranging, set] = useState(false);
  const end = useCallback(() => {
    worker.current?.terminate();
    worker.current = undefined;
    set(false);
  }, []);
  useEffect(() => end, [end]);
  const arrange = useCallback(() => {
    if (loom === undefined || loom.parts.length === 0) return;
    end();
    set(true);
    const { drawing: _, ...bare } = loom;
    worker.current = new DrawWorker();
    worker.current.onmessage = ({ data }: MessageEvent<DrawAnswer>) => {
      end();
      const why =
        data.kind === "drawn"
          ? edit("Arranged", (now) => ({ ...now, drawing: drawingOf(data.placed) }))
          : "It could not be arranged.";
      if (why !== undefined) tell(why);
    };
    worker.current.onerror = () => {
      end();
      tell("It could not be arranged.");
    };
    const ask: DrawAsk = { rev: 1, text: write(bare), like: undefined };
    worker.current.postMessage(ask);
  }, [loom, edit, tell, end]);
  return { arrange, isArranging };
}
