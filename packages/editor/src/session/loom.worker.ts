import { analyseInSlices } from "@loomproof/analyzer";
import { layout } from "@loomproof/drawing";
import { parse, resolve } from "@loomproof/netlist";
import type { Answer, Ask } from "./messages.ts";

const answer = (message: Answer) => self.postMessage(message);

// One loom a worker. The page ends the worker to end the work, so nothing here asks whether it is still wanted.
self.onmessage = ({ data: { rev, text, drawing } }: MessageEvent<Ask>) => {
  try {
    const read = parse(text);
    if (!read.ok) {
      answer({ kind: "problems", rev, problems: read.problems });
      return;
    }
    const loom = resolve(read.loom);
    answer({ kind: "read", rev, loom });
    answer({ kind: "drawn", rev, placed: layout(loom, { drawing: read.loom.drawing ?? drawing }) });
    const slices = analyseInSlices(read.loom);
    let next = slices.next();
    for (; !next.done; next = slices.next()) answer({ kind: "checking", rev, progress: next.value });
    answer({ kind: "proved", rev, report: next.value });
  } catch (error) {
    answer({ kind: "failed", rev, says: error instanceof Error ? error.message : String(error) });
  }
};
