/** Work that rests now and then, so that a worker can listen in between; each rest tells the share that is done, 0 to 1. */
export type Slices<T> = Generator<number, T, void>;

/** Does the whole of it at once. */
export function atOnce<T>(slices: Generator<unknown, T, void>): T {
  for (let next = slices.next(); ; next = slices.next()) if (next.done) return next.value;
}
