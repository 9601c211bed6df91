import { layout } from "@loomproof/drawing";
import { resolve } from "@loomproof/netlist";
import type { DrawAnswer, DrawAsk } from "./messages.ts";
import { reread, wordsOf } from "./reread.ts";

const answer = (message: DrawAnswer) => self.postMessage(message);

/** Gives a loom its drawing. Whoever has a newer loom ends this worker, so nothing is listened for meanwhile. */
self.onmessage = ({ data: { rev, text, like } }: MessageEvent<DrawAsk>) => {
  try {
    answer({ kind: "drawn", rev, placed: layout(resolve(reread(text)), { drawing: like }) });
  } catch (error) {
    answer({ kind: "undrawn", rev, says: wordsOf(error) });
  }
};
