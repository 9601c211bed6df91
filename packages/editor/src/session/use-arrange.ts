import { drawingOf } from "@loomproof/drawing";
import { type Loom, write } from "@loomproof/netlist";
import { useCallback, useEffect, useRef, useState } from "react";
import { drawOnce } from "./draw-once.ts";
import type { Edit } from "./editing.ts";

/** Lays a loom out afresh on request, in a worker of its own. What is edited meanwhile finds its place in it. */
export function useArrange(loom: Loom | undefined, edit: Edit, tell: (says: string) => void) {
  const endDrawing = useRef(() => {});
  const [isArranging, set] = useState(false);
  const end = useCallback(() => {
    endDrawing.current();
    set(false);
  }, []);
  useEffect(() => end, [end]);
  const arrange = useCallback(() => {
    if (loom === undefined || loom.parts.length === 0) return;
    end();
    set(true);
    const { drawing: _, ...bare } = loom;
    endDrawing.current = drawOnce({ rev: 1, text: write(bare), like: undefined }, (answer) => {
      set(false);
      const why =
        answer.kind === "drawn"
          ? edit("Arranged", (now) => ({ ...now, drawing: drawingOf(answer.placed) }))
          : "It could not be arranged.";
      if (why !== undefined) tell(why);
    });
  }, [loom, edit, tell, end]);
  return { arrange, isArranging };
}
