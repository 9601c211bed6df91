/** Nothing smaller is told apart: a nanoampere, a nanovolt, a picosecond. */
const LEAST_SIZE = 1e-9;

/** Steps that a person counts by: 1, 2 or 5 times a power of ten. */
function roundStep(size: number): number {
  const least = size * (1 - 1e-9);
  let step = 1;
  while (step >= least) step /= 10;
  while (step < least) {
    for (const times of [1, 2, 5]) if (step * times >= least) return step * times;
    step *= 10;
  }
  return step;
}

/** Marks from `from` to `to`, no closer than so much of the range. */
export function marksBetween(from: number, to: number, most: number): readonly number[] {
  if (to - from < LEAST_SIZE || most < 1) return [];
  const step = roundStep((to - from) / most);
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, k) => Number(((first + k) * step).toPrecision(12)));
}

export interface Range {
  readonly least: number;
  readonly most: number;
}

/** What is below 0 by less than this share of the whole is drawn as 0. */
const SLIGHT = 0.02;

/** A range that holds all of these and 0, with a round end. */
export function rangeOf(values: readonly (number | null)[]): Range {
  let [least, most] = [0, 0];
  for (const v of values) {
    if (v === null) continue;
    if (v < least) least = v;
    if (v > most) most = v;
  }
  if (-least < SLIGHT * most) least = 0;
  const size = most - least;
  if (size < LEAST_SIZE) return { least: 0, most: 1 };
  const step = roundStep(size / 4);
  return { least: Math.floor(least / step + 1e-9) * step, most: Math.ceil(most / step - 1e-9) * step };
}
