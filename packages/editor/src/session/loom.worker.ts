import { analyseInSlices, behaviourInSlices, type Progress, play, type Report } from "@loomproof/analyzer";
import { layout } from "@loomproof/drawing";
import { type Loom, parse, resolve } from "@loomproof/netlist";
import type { Answer, Answers, Ask, Question, Reply } from "./messages.ts";

const answer = (message: Answer) => self.postMessage(message);
const reply = (message: Reply) => self.postMessage(message);

let newest = 0;

self.onmessage = ({ data }: MessageEvent<Ask | Question>) => {
  if ("kind" in data) {
    think(data);
    return;
  }
  newest = data.rev;
  answer({ kind: "begun", rev: data.rev });
  void work(data).catch((error: unknown) => answer({ kind: "failed", rev: data.rev, says: wordsOf(error) }));
};

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Answers a panel's question. Whoever has a newer one ends this worker, so nothing is listened for meanwhile. */
function think(question: Question): void {
  try {
    reply({ kind: "answered", answer: answerTo(question) });
  } catch (error) {
    reply({ kind: "unanswered", says: wordsOf(error) });
  }
}

function answerTo(question: Question): Answers[Question["kind"]] {
  const loom = read(question.text);
  switch (question.kind) {
    case "behaviour": {
      const slices = behaviourInSlices(loom);
      const isToBeTold = pace();
      let next = slices.next();
      for (; !next.done; next = slices.next())
        if (isToBeTold(next.value)) reply({ kind: "looking", progress: next.value });
      return next.value;
    }
    case "play":
      return play(loom, question.moves, { times: question.times });
    default:
      return question satisfies never;
  }
}

function read(text: string): Loom {
  const read = parse(text);
  // The page has read it already.
  if (!read.ok) throw new Error(read.problems[0]?.says ?? "It is no loom.");
  return read.loom;
}

/** Draws and proves, and leaves off between slices when something newer was asked. */
async function work({ rev, text, draws, like, proves }: Ask): Promise<void> {
  const loom = read(text);
  if (draws) answer({ kind: "drawn", rev, placed: layout(resolve(loom), { drawing: like }) });
  if (!proves) return;
  const known = proved.get(text);
  if (known !== undefined) {
    answer({ kind: "proved", rev, report: known });
    return;
  }
  const slices = analyseInSlices(loom);
  const isToBeTold = pace();
  let heard = performance.now();
  let next = slices.next();
  for (; !next.done; next = slices.next()) {
    if (isToBeTold(next.value)) answer({ kind: "checking", rev, progress: next.value });
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
/** A person sees no more than some ten steps a second, and the page is laid out again for each. */
const TELL_MS = 100;

/** Whether it is time to tell: of everything new that is looked at, and whenever so much time has passed. */
function pace(): (progress: Progress) => boolean {
  let last = Number.NEGATIVE_INFINITY;
  let told = "";
  return ({ says }) => {
    const now = performance.now();
    if (says === told && now - last < TELL_MS) return false;
    last = now;
    told = says;
    return true;
  };
}

const turns = new MessageChannel();
/** Lets what was asked meanwhile in. A timer would wait for 4 ms each time. */
const aTurn = (): Promise<void> =>
  new Promise((resolve) => {
    turns.port1.onmessage = () => resolve();
    turns.port2.postMessage(undefined);
  });
