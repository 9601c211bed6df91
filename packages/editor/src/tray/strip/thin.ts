export interface Spot {
  readonly x: number;
  readonly y: number;
}

/**
 * A line with at most four points a pixel: of what falls into one pixel the first, the lowest, the highest and the last,
 * so that nothing short is lost. A break where there is no value.
 */
export function thinned(
  ms: readonly number[],
  values: readonly (number | null)[],
  x: (ms: number) => number,
  y: (value: number) => number,
): readonly (readonly Spot[])[] {
  const lines: Spot[][] = [];
  let line: Spot[] = [];
  let pixel: Spot[] = [];
  const flush = () => {
    const lowest = pixel.reduce((a, b) => (b.y > a.y ? b : a), pixel[0] as Spot);
    const highest = pixel.reduce((a, b) => (b.y < a.y ? b : a), pixel[0] as Spot);
    const kept = new Set([pixel[0], lowest, highest, pixel.at(-1)]);
    line.push(...pixel.filter((s) => kept.has(s)));
    pixel = [];
  };
  const end = () => {
    if (pixel.length > 0) flush();
    if (line.length > 0) lines.push(line);
    line = [];
  };
  ms.forEach((at, k) => {
    const value = values[k];
    if (value == null) {
      end();
      return;
    }
    const spot = { x: x(at), y: y(value) };
    if (pixel[0] !== undefined && Math.floor(pixel[0].x) !== Math.floor(spot.x)) flush();
    pixel.push(spot);
  });
  end();
  return lines;
}

/** The lines as one path. */
export const pathOf = (lines: readonly (readonly Spot[])[]): string =>
  lines
    .map((line) => line.map((s, i) => `${i === 0 ? "M" : "L"}${s.x.toFixed(1)} ${s.y.toFixed(1)}`).join(""))
    .join("");

/** Places along the paper that are tried for words. */
const PLACES = 9;

interface Words {
  readonly y: number;
  readonly width: number;
  /** The stretch of paper that they may stand on. */
  readonly from: number;
  readonly to: number;
}

/** Where along the paper words at this height are furthest from the line: the x of their left end. */
export function freest(line: readonly Spot[], { y, width, from, to }: Words): number {
  const near = line.filter((s, k) => (line[k + 1] ?? s).x >= from && (line[k - 1] ?? s).x <= to);
  let best = { x: from + 6, room: -1 };
  for (let k = 0; k < PLACES; k++) {
    const x = from + 6 + (k / (PLACES - 1)) * Math.max(0, to - from - width - 12);
    const room = roomRound(near, x, x + width, y);
    if (room > best.room + 0.5) best = { x, room };
  }
  return best.x;
}

/** How far the line keeps away from a height between two places. */
function roomRound(line: readonly Spot[], from: number, to: number, y: number): number {
  let room = Number.POSITIVE_INFINITY;
  line.forEach((b, k) => {
    const a = line[k - 1] ?? b;
    if (b.x < from || a.x > to) return;
    const [first, last] = [off(a, b, from, y), off(a, b, to, y)];
    room = Math.min(room, first * last < 0 ? 0 : Math.min(Math.abs(first), Math.abs(last)));
  });
  return room;
}

/** How far a stretch of line lies from a height, at a place or at its end before that. */
function off(a: Spot, b: Spot, x: number, y: number): number {
  if (x <= a.x || b.x === a.x) return a.y - y;
  if (x >= b.x) return b.y - y;
  return a.y + ((x - a.x) / (b.x - a.x)) * (b.y - a.y) - y;
}
