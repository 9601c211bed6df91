import type { Lane } from "./lanes.ts";
import { marksBetween, type Range, rangeOf } from "./scale.ts";

/** Where a lane lies on the paper, px. */
export interface Track {
  readonly top: number;
  readonly height: number;
  readonly range: Range;
  /** Of lines: px of a value, and the values that are marked. */
  readonly y: (value: number) => number;
  readonly marks: readonly number[];
}

export interface Geometry {
  /** The column of names, and the paper right of it, px. */
  readonly left: number;
  readonly width: number;
  readonly height: number;
  /** Room for the flag above the lanes, and how wide that is. */
  readonly flag: number;
  readonly flagWidth: number;
  readonly tracks: readonly Track[];
  readonly x: (ms: number) => number;
  readonly msAt: (x: number) => number;
  /** Where the clock ends, px. */
  readonly end: number;
  /** As much of it as is seen at once. */
  readonly page: number;
  /** Marks of the clock, ms. */
  readonly clock: readonly number[];
}

interface Room {
  readonly width: number;
  readonly zoom: number;
  readonly until: number;
  readonly isNarrow: boolean;
  /** Letters of the sentence on the flag; undefined without one. */
  readonly letters: number | undefined;
}

const LEFT = { wide: 208, narrow: 128 };
const FLAG_WIDTH = 380;
/** Of the flag: its head with its edges, a line of its sentence, about a letter of that. */
const FLAG_HEAD = 44;
const FLAG_LINE = 17;
const FLAG_LETTER = 6.6;
const FLAG_SIDES = 28;
const BAR = 44;
const LINE = 96;
/** Free above and below the values of a line. */
const PAD = 12;
/** Free at the right, so that the last mark can be read. */
const RIGHT = 26;
/** Marks of the clock are no closer than this. */
const MARK = 96;

/** Places of all lanes for a box so wide. */
export function geometryOf(lanes: readonly Lane[], { width, zoom, until, isNarrow, letters }: Room): Geometry {
  const left = isNarrow ? LEFT.narrow : LEFT.wide;
  const paper = Math.max(160, width - left) * zoom;
  const needed = Math.max(200, (letters ?? 0) * FLAG_LETTER + FLAG_SIDES);
  const flagWidth = Math.min(FLAG_WIDTH, paper - 8, needed);
  const lines = Math.ceil(((letters ?? 0) * FLAG_LETTER) / (flagWidth - FLAG_SIDES));
  const flag = letters === undefined ? 6 : FLAG_HEAD + lines * FLAG_LINE;
  const plot = Math.max(1, paper - RIGHT);
  let top = flag;
  const tracks = lanes.map((lane): Track => {
    const height = lane.kind === "bar" ? BAR : LINE;
    const from = top;
    top += height;
    if (lane.kind === "bar") return { top: from, height, range: { least: 0, most: 1 }, y: () => from, marks: [] };
    const range = rangeOf([...lane.values, ...lane.limits.map((l) => l.at)]);
    const { least, most } = range;
    const y = (value: number) => from + height - PAD - ((value - least) / (most - least)) * (height - 2 * PAD);
    return { top: from, height, range, y, marks: marksBetween(least, most, 3) };
  });
  return {
    left,
    width: paper,
    height: top,
    flag,
    flagWidth,
    tracks,
    x: (ms) => (ms / until) * plot,
    end: plot,
    page: plot / zoom,
    msAt: (x) => (x / plot) * until,
    clock: marksBetween(0, until, plot / MARK),
  };
}
