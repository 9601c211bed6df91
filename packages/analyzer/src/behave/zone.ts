// Times at which what is on its way can land, as a zone: bounds on clocks and on their differences, in whole
// microseconds. Exact where several moves hang on one cause, which single intervals are not. Method: Dill, "Timing
// assumptions and verification of finite-state concurrent systems", 1989; Bengtsson and Yi, "Timed automata: semantics,
// algorithms and tools", 2004 (both from memory).

/**
 * `bounds[i * size + j]` is the most by which clock i can be ahead of clock j; clock 0 stands at nothing, so that the
 * first column holds the most and the first row, negated, the least that a clock can show. Always as tight as can be.
 */
export interface Zone {
  readonly size: number;
  readonly bounds: readonly number[];
}

/** Room for bounds. Filled with what is no whole number: the engine then takes all bounds for one kind of list. */
const room = (size: number): number[] => new Array<number>(size * size).fill(Number.POSITIVE_INFINITY);

/** No clock but the one that stands at nothing. */
export const NO_CLOCKS: Zone = { size: 1, bounds: room(1).fill(0) };

/** Seconds as whole microseconds. */
export const micros = (seconds: number): number => Math.round(seconds * 1e6);

/** With one more clock, started now. Its number is the size of before. */
export function started({ size, bounds }: Zone): Zone {
  const wide = size + 1;
  const next = room(wide);
  for (let i = 0; i < wide; i++)
    for (let j = 0; j < wide; j++)
      next[i * wide + j] = bounds[(i < size ? i : 0) * size + (j < size ? j : 0)] as number;
  return { size: wide, bounds: next };
}

/** With only these clocks, in this order. */
export function keeping({ size, bounds }: Zone, clocks: readonly number[]): Zone {
  if (clocks.length === 0) return NO_CLOCKS;
  if (clocks.length === size - 1 && isCounted(clocks)) return { size, bounds };
  const wide = clocks.length + 1;
  const next = room(wide);
  for (let i = 0; i < wide; i++) {
    const row = i === 0 ? 0 : (clocks[i - 1] as number) * size;
    for (let j = 0; j < wide; j++)
      next[i * wide + j] = bounds[row + (j === 0 ? 0 : (clocks[j - 1] as number))] as number;
  }
  return { size: wide, bounds: next };
}

/** Whether these clocks are 1, 2, 3 and so on. */
export function isCounted(clocks: readonly number[]): boolean {
  for (let k = 0; k < clocks.length; k++) if (clocks[k] !== k + 1) return false;
  return true;
}

/** After some time has passed, during which no clock passes its own most; undefined if there is no such time. */
export function waited(zone: Zone, most: readonly number[]): Zone | undefined {
  const { size } = zone;
  const bounds = zone.bounds.slice();
  for (let i = 1; i < size; i++) bounds[i * size] = Number.POSITIVE_INFINITY;
  for (let i = 1; i < size; i++) if (!tighten(bounds, size, i, 0, most[i] as number)) return undefined;
  return { size, bounds };
}

/** Where a clock shows at least so much; undefined if it never does. */
export function atLeast({ size, bounds }: Zone, clock: number, least: number): Zone | undefined {
  if (-(bounds[clock] as number) >= least) return { size, bounds };
  const next = bounds.slice();
  return tighten(next, size, 0, clock, -least) ? { size, bounds: next } : undefined;
}

/** Where a clock shows at most so much; undefined if it never does. */
export function atMost({ size, bounds }: Zone, clock: number, most: number): Zone | undefined {
  if ((bounds[clock * size] as number) <= most) return { size, bounds };
  const next = bounds.slice();
  return tighten(next, size, clock, 0, most) ? { size, bounds: next } : undefined;
}

/** Whether every time of one zone is a time of the other. Both have the same clocks. */
export function isWithin(inner: Zone, outer: Zone): boolean {
  for (let k = 0; k < inner.bounds.length; k++)
    if ((inner.bounds[k] as number) > (outer.bounds[k] as number)) return false;
  return true;
}

/** All times of both, and those between. */
export function around({ size, bounds }: Zone, other: Zone): Zone {
  const next = room(size);
  for (let k = 0; k < next.length; k++) next[k] = Math.max(bounds[k] as number, other.bounds[k] as number);
  return { size, bounds: next };
}

/** Sets one bound, and draws all others tight that go through it. False if nothing is left. */
function tighten(bounds: number[], size: number, i: number, j: number, bound: number): boolean {
  if ((bounds[i * size + j] as number) <= bound) return true;
  if ((bounds[j * size + i] as number) + bound < 0) return false;
  bounds[i * size + j] = bound;
  for (let a = 0; a < size; a++) {
    const to = (bounds[a * size + i] as number) + bound;
    for (let b = 0; b < size; b++) {
      const through = to + (bounds[j * size + b] as number);
      if (through < (bounds[a * size + b] as number)) bounds[a * size + b] = through;
    }
  }
  return true;
}
