import { ProgressBar } from "../panels/progress-bar.tsx";
import type { Looking } from "../session/messages.ts";

interface Props {
  readonly asks: {
    readonly isAsking: boolean;
    readonly isStopped: boolean;
    readonly progress: Looking | undefined;
    readonly failure: string | undefined;
    readonly stop: () => void;
    readonly again: () => void;
  };
  /** What is being looked at as long as the worker says nothing closer. */
  readonly says: string;
  /** Whether there is a proved loom to ask about. */
  readonly isReady: boolean;
}

/** Instead of a panel's answer: how far it is, a way to end it, or why there is none. */
export function Waiting({ asks, says, isReady }: Props) {
  const { isAsking, isStopped, progress, failure, stop, again } = asks;
  if (!isReady) return <p className="hint">This stands here as soon as the loom is checked.</p>;
  if (isStopped || failure !== undefined)
    return (
      <div className="checking">
        <p>{failure === undefined ? <strong>Stopped.</strong> : `This failed: ${failure}`}</p>
        <button type="button" className="plain" onClick={again}>
          Look again
        </button>
      </div>
    );
  return (
    <div className="checking" aria-busy={isAsking}>
      <p>
        <strong>Looking</strong>
        <button type="button" className="word" onClick={stop}>
          Stop
        </button>
      </p>
      <ProgressBar label={says} done={progress?.done} />
      <p className="looked-at">{progress?.says ?? says}.</p>
    </div>
  );
}
