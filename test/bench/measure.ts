/** Milliseconds of processor time. */
export function cpuMs(run: () => void): number {
  const before = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

export const median = (list: readonly number[]): number => list.toSorted((a, b) => a - b)[list.length >> 1] ?? 0;

/** Milliseconds of wall time of the median of `times` runs. */
export const medianMs = (times: number, run: () => void): number =>
  median(
    Array.from({ length: times }, () => {
      const started = performance.now();
      run();
      return performance.now() - started;
    }),
  );
