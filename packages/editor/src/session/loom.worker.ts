import { analyse } from "@loomproof/analyzer";
import { layout } from "@loomproof/drawing";
import { parse, resolve } from "@loomproof/netlist";
import type { Answer, Ask } from "./messages.ts";

const answer = (message: Answer) => self.postMessage(message);

self.onmessage = ({ data: { rev, text } }: MessageEvent<Ask>) => {
  try {
    const read = parse(text);
    if (!read.ok) {
      answer({ kind: "problems", rev, problems: read.problems });
      return;
    }
    const loom = resolve(read.loom);
    answer({ kind: "read", rev, loom });
    answer({ kind: "drawn", rev, placed: layout(loom) });
    answer({ kind: "proved", rev, report: analyse(read.loom) });
  } catch (error) {
    answer({ kind: "failed", rev, says: error instanceof Error ? error.message : String(error) });
  }
};
