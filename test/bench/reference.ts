import { lup, matrix } from "mathjs";
import { medianMs } from "./measure.ts";

const SIZE = 200;

/**
 * The reference loop: LU of a fixed 200 × 200 matrix by a general-purpose library (mathjs), once gone through. Everything
 * else is told as a multiple of it, so that figures from different machines and noisy days compare.
 */
export function referenceLoop(): () => void {
  const a = matrix(
    Array.from({ length: SIZE }, (_, i) =>
      Array.from({ length: SIZE }, (_, j) => (i === j ? SIZE : ((i * 31 + j * 17) % 23) / 23)),
    ),
  );
  lup(a);
  return () => void lup(a);
}

/** Milliseconds of one turn of it. */
export const referenceMs = (): number => medianMs(9, referenceLoop());
