interface Props {
  /** What is under way, for whoever listens. */
  readonly label: string;
  /** The share that is done, 0 to 1. */
  readonly done: number | undefined;
}

/** How far something is. */
export function ProgressBar({ label, done = 0 }: Props) {
  const percent = Math.round(done * 100);
  return (
    <div
      className="bar"
      role="progressbar"
      aria-label={label}
      aria-valuenow={percent}
      aria-valuemin={0}
      aria-valuemax={100}
    >
      <span style={{ width: `${percent}%` }} />
    </div>
  );
}
