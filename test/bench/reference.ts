import { lup, matrix } from "mathjs";

/** Milliseconds of the median of `times` runs. */
export function median(times: number, run: () => void): number {
  const list = Array.from({ length: times }, () => {
    const started = performance.now();
    run();
    return performance.now() - started;
  });
  return list.sort((a, b) => a - b)[times >> 1] ?? 0;
}

const SIZE = 200;

/**
 * The reference loop: LU of a fixed 200 × 200 matrix by a general-purpose library (mathjs). Everything else is told as a
 * multiple of it, so that figures from different machines and noisy days compare.
 */
export function referenceMs(): number {
  const a = matrix(
    Array.from({ length: SIZE }, (_, i) =>
      Array.from({ length: SIZE }, (_, j) => (i === j ? SIZE : ((i * 31 + j * 17) % 23) / 23)),
    ),
  );
  lup(a);
  return median(9, () => lup(a));
}
