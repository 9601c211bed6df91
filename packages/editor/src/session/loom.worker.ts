import { analyseInSlices, behaviourInSlices, type Progress, play, type Report } from "@loomproof/analyzer";
import type { Answer, Answers, Ask, Looking, Question, Reply } from "./messages.ts";
import { reread, wordsOf } from "./reread.ts";

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

/** Answers a panel's question. Whoever has a newer one ends this worker, so nothing is listened for meanwhile. */
function think(question: Question): void {
  try {
    reply({ kind: "answered", answer: answerTo(question) });
  } catch (error) {
    reply({ kind: "unanswered", says: wordsOf(error) });
  }
}

function answerTo(question: Question): Answers[Question["kind"]] {
  const loom = reread(question.text);
  switch (question.kind) {
    case "behaviour": {
      const slices = behaviourInSlices(loom);
      const isToBeTold = pace();
      let next = slices.next();
      for (; !next.done; next = slices.next())
        if (isToBeTold(next.value)) reply({ kind: "looking", progress: lookingAt(next.value) });
      return next.value;
    }
    case "play":
      return play(loom, question.moves, { times: question.times });
    default:
      return question satisfies never;
  }
}

/** Proves, and leaves off between slices when something newer was asked. */
async function work({ rev, text }: Ask): Promise<void> {
  const known = proved.get(text);
  if (known !== undefined) {
    answer({ kind: "proved", rev, report: known });
    return;
  }
  const slices = analyseInSlices(reread(text), { early: true });
  const isToBeTold = pace();
  let heard = performance.now();
  let next = slices.next();
  for (; !next.done; next = slices.next()) {
    const { found } = next.value;
    const progress = lookingAt(next.value);
    if (found !== undefined) answer({ kind: "checking", rev, progress, soFar: found() });
    else if (isToBeTold(progress)) answer({ kind: "checking", rev, progress });
    if (performance.now() - heard < LISTEN_MS) continue;
    await aTurn();
    heard = performance.now();
    if (rev !== newest) return;
  }
  keep(text, next.value);
  answer({ kind: "proved", rev, report: next.value });
}

/** What can be sent: functions cannot. */
const lookingAt = ({ says, done }: Progress): Looking => ({ says, done });

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
function pace(): (progress: Looking) => boolean {
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
