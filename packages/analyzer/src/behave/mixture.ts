// The ways in which undecided elements are tried, each as a number. Few are tried in every mixture: one bit each. Of many
// each is tried alone against all others open and all others closed: 0 is all open, 1 all closed, then two for each.

const MOST_MIXED = 4;

const isMixed = (count: number): boolean => count <= MOST_MIXED;

export const ALL_OPEN = 0;
export const allClosed = (count: number): number => (isMixed(count) ? (1 << count) - 1 : 1);

/** Every way that is tried with so many undecided. */
export const everyWay = (count: number): readonly number[] =>
  Array.from({ length: isMixed(count) ? 1 << count : 2 + 2 * count }, (_, way) => way);

/** Whether one of so many undecided conducts in a way. */
export function conducts(count: number, way: number, one: number): boolean {
  if (isMixed(count)) return ((way >> one) & 1) === 1;
  if (way <= 1) return way === 1;
  return ((way >> 1) - 1 === one) === (way % 2 === 0);
}

/** The same way with one of the undecided the other way; -1 if that is not tried. */
export function flipped(count: number, way: number, one: number): number {
  if (isMixed(count)) return way ^ (1 << one);
  if (way <= 1) return 2 + 2 * one + way;
  return (way >> 1) - 1 === one ? way % 2 : -1;
}

/** All open, all closed, and both with each of these the other way. */
export const flipping = (count: number, ones: readonly number[]): readonly number[] => {
  const ends = [ALL_OPEN, allClosed(count)];
  return [...new Set([...ends, ...ones.flatMap((one) => ends.map((end) => flipped(count, end, one)))])];
};
