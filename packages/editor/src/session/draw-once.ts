import DrawWorker from "./draw.worker.ts?worker&inline";
import type { DrawAnswer, DrawAsk } from "./messages.ts";

/** Has a loom drawn by a worker of its own, which ends once that is told, or by what is returned: then nothing is told. */
export function drawOnce(ask: DrawAsk, told: (answer: DrawAnswer) => void): () => void {
  const worker = new DrawWorker();
  const tell = (answer: DrawAnswer) => {
    worker.terminate();
    told(answer);
  };
  worker.onmessage = ({ data }: MessageEvent<DrawAnswer>) => tell(data);
  worker.onerror = ({ message }) => tell({ kind: "undrawn", rev: ask.rev, says: message });
  worker.postMessage(ask);
  return () => worker.terminate();
}
