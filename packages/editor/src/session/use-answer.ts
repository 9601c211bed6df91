import { useCallback, useEffect, useRef, useState } from "react";
import LoomWorker from "./loom.worker.ts?worker&inline";
import type { Answers, Looking, Question, Reply } from "./messages.ts";

type AskedFor<K extends Question["kind"]> = Extract<Question, { readonly kind: K }>;

/** What is known of the answer to a panel's question. The last answer stays until there is a newer one. */
export interface Answered<K extends Question["kind"]> {
  /** The question that was asked last. */
  readonly asked: AskedFor<K> | undefined;
  readonly answer: Answers[K] | undefined;
  /** The question that `answer` is about. */
  readonly of: AskedFor<K> | undefined;
  readonly isAsking: boolean;
  readonly isStopped: boolean;
  readonly progress: Looking | undefined;
  readonly failure: string | undefined;
}

const NOTHING = {
  asked: undefined,
  answer: undefined,
  of: undefined,
  isAsking: false,
  isStopped: false,
  progress: undefined,
  failure: undefined,
} as const;

/**
 * Asks a question in a worker of its own; undefined asks nothing and leaves what is known. A newer question ends the
 * work on the one before. The question must stay the same object as long as it asks the same.
 */
export function useAnswer<K extends Question["kind"]>(question: AskedFor<K> | undefined) {
  const [known, know] = useState<Answered<K>>(NOTHING);
  const worker = useRef<Worker | undefined>(undefined);
  const isBusy = useRef(false);
  const last = useRef<AskedFor<K> | undefined>(undefined);
  const end = useCallback(() => {
    worker.current?.terminate();
    worker.current = undefined;
    isBusy.current = false;
    last.current = undefined;
  }, []);
  useEffect(() => end, [end]);
  const ask = useCallback(
    (asked: AskedFor<K>) => {
      if (isBusy.current) end();
      worker.current ??= new LoomWorker();
      isBusy.current = true;
      last.current = asked;
      const begun = { asked, isAsking: true, isStopped: false, progress: undefined, failure: undefined };
      know((k) => ({ ...k, ...begun }));
      worker.current.onmessage = ({ data }: MessageEvent<Reply<K>>) => {
        if (data.kind !== "looking") isBusy.current = false;
        know((k) => told(k, data));
      };
      worker.current.onerror = (event) => {
        end();
        know((k) => told(k, { kind: "unanswered", says: event.message }));
      };
      worker.current.postMessage(asked);
    },
    [end],
  );
  useEffect(() => {
    if (question !== undefined && question !== last.current) ask(question);
  }, [question, ask]);
  const stop = useCallback(() => {
    const asked = last.current;
    end();
    // Only a person, or another question, asks again.
    last.current = asked;
    know((k) => ({ ...k, isAsking: false, isStopped: true, progress: undefined }));
  }, [end]);
  const again = useCallback(() => {
    if (question !== undefined) ask(question);
  }, [question, ask]);
  return { ...known, stop, again };
}

function told<K extends Question["kind"]>(known: Answered<K>, reply: Reply<K>): Answered<K> {
  const done = { isAsking: false, progress: undefined };
  switch (reply.kind) {
    case "looking":
      return { ...known, progress: reply.progress };
    case "answered":
      return { ...known, ...done, answer: reply.answer, of: known.asked };
    case "unanswered":
      return { ...known, ...done, failure: reply.says };
    default:
      return reply satisfies never;
  }
}
