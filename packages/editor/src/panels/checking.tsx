import { useEffect, useState } from "react";
import type { Looking } from "../session/messages.ts";
import { ProgressBar } from "./progress-bar.tsx";

interface Props {
  readonly progress: Looking | undefined;
  readonly isStopped: boolean;
  readonly failure: string | undefined;
  readonly isDrawn: boolean;
  /** Whether findings are told below already. */
  readonly hasFound: boolean;
  readonly stop: () => void;
  readonly again: () => void;
}

/** What is being looked at for the first time, how far it is, and a way to end it. */
export function Checking({ progress, isStopped, failure, isDrawn, hasFound, stop, again }: Props) {
  if (isStopped || failure !== undefined)
    return (
      <div className="checking">
        <p>
          {isStopped ? <strong>Stopped.</strong> : `The check failed: ${failure}`}{" "}
          {hasFound
            ? "This was found until then; not everything was looked at."
            : isDrawn
              ? "Nothing is proved; the drawing stands."
              : "Nothing is drawn or proved."}
        </p>
        <button type="button" className="plain" onClick={again}>
          {isDrawn ? "Check again" : "Draw and check"}
        </button>
      </div>
    );
  return (
    <div className="checking">
      <p>
        <strong>{hasFound ? "Found so far" : progress === undefined && !isDrawn ? "Drawing" : "Checking"}</strong>
        <button type="button" className="word" onClick={stop}>
          Stop
        </button>
      </p>
      <ProgressBar label="Check" done={progress?.done} />
      <p className="looked-at">
        {progress !== undefined ? `${progress.says}.` : isDrawn ? "The loom is read." : "Everything finds its place."}{" "}
        <Elapsed />
      </p>
      {hasFound && <p className="foretold">Some of these may come along with others: that is known last.</p>}
    </div>
  );
}

interface AgainProps {
  readonly progress: Looking | undefined;
  readonly isChecking: boolean;
  readonly isStopped: boolean;
  readonly failure: string | undefined;
  readonly stop: () => void;
  readonly again: () => void;
}

/** Over the findings of before, while an edit is being looked at. */
export function CheckingAgain({ progress, isChecking, isStopped, failure, stop, again }: AgainProps) {
  if (!isChecking && !isStopped && failure === undefined) return null;
  const percent = Math.round((progress?.done ?? 0) * 100);
  return (
    <div className="checking-again" role="status">
      <p>
        {isChecking
          ? "Checking again"
          : isStopped
            ? "Stopped: not all of it was looked at again."
            : `The check failed: ${failure}`}
        <button type="button" className="word" onClick={isChecking ? stop : again}>
          {isChecking ? "Stop" : "Check again"}
        </button>
      </p>
      {isChecking && (
        <div className="bar" aria-hidden="true">
          <span style={{ width: `${percent}%` }} />
        </div>
      )}
    </div>
  );
}

/** For how long: what takes long must be seen to be alive. */
function Elapsed() {
  const [seconds, setSeconds] = useState(0);
  useEffect(() => {
    const timer = setInterval(() => setSeconds((s) => s + 1), 1000);
    return () => clearInterval(timer);
  }, []);
  return <>{seconds > 2 && `${seconds}\u00a0s so far.`}</>;
}
