import { analyseInSlices, type Report } from "@loomproof/analyzer";
import { layout } from "@loomproof/drawing";
import { parse, resolve } from "@loomproof/netlist";
import type { Answer, Ask } from "./messages.ts";

const answer = (message: Answer) => self.postMessage(message);

let newest = 0;

self.onmessage = ({ data }: MessageEvent<Ask>) => {
  newest = data.rev;
  answer({ kind: "begun", rev: data.rev });
  void work(data).catch((error: unknown) => {
    answer({ kind: "failed", rev: data.rev, says: error instanceof Error ? error.message : String(error) });
  });
};

/** Draws and proves, and leaves off between slices when something newer was asked. */
async function work({ rev, text, draws, like, proves }: Ask): Promise<void> {
  const read = parse(text);
  // The page has read it already.
  if (!read.ok) throw new Error(read.problems[0]?.says ?? "It is no loom.");
  if (draws) answer({ kind: "drawn", rev, placed: layout(resolve(read.loom), { drawing: like }) });
  if (!proves) return;
  const known = proved.get(text);
  if (known !== undefined) {
    answer({ kind: "proved", rev, report: known });
    return;
  }
  const slices = analyseInSlices(read.loom);
  let heard = performance.now();
  let next = slices.next();
  for (; !next.done; next = slices.next()) {
    answer({ kind: "checking", rev, progress: next.value });
    if (performance.now() - heard < LISTEN_MS) continue;
    await aTurn();
    heard = performance.now();
    if (rev !== newest) return;
  }
  keep(text, next.value);
  answer({ kind: "proved", rev, report: next.value });
}

/** What was proved last, by its text: Undo and Redo lead back to it at once. */
const proved = new Map<string, Report>();
const MOST_KEPT = 20;

function keep(text: string, report: Report): void {
  proved.set(text, report);
  const [oldest] = proved.keys();
  if (proved.size > MOST_KEPT && oldest !== undefined) proved.delete(oldest);
}

/** So long at most it works on before it listens for something newer. */
const LISTEN_MS = 10;

const turns = new MessageChannel();
/** Lets what was asked meanwhile in. A timer would wait for 4 ms each time. */
const aTurn = (): Promise<void> =>
  new Promise((resolve) => {
    turns.port1.onmessage = () => resolve();
    turns.port2.postMessage(undefined);
  });
