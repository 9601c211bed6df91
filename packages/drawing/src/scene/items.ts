import type { Rect } from "../layout/frame.ts";
import type { Stroke } from "../symbols/pen.ts";
import type { DrawnState } from "../symbols/symbol.ts";

// A drawing as plain data, in px at 100 %. Canvas and SVG draw the same scene; items carry the id of what they show and a
// role, never a colour.

export interface Spot {
  readonly x: number;
  readonly y: number;
}

export type Sleeve = "feed" | "between" | "ground" | "float";

/** Strokes of one part, with its corner; mirrored about its own middle where `mirrored`. */
export interface SymbolItem {
  readonly id: string;
  /** The part that it shows; a flag shows none. */
  readonly part: string | undefined;
  /** The box of the layout that it stands for, or hangs on. */
  readonly box: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly mirrored: boolean;
  readonly strokes: readonly Stroke[];
  /** What the symbol covers, with its ink. */
  readonly room: Rect;
  readonly dim: boolean;
}

export interface WireItem {
  readonly id: string;
  readonly points: readonly Spot[];
  readonly width: number;
  readonly base: string;
  readonly tracer: string | undefined;
  readonly sleeve: Sleeve | undefined;
  readonly dim: boolean;
  /** Where this wire jumps over another, by the segment it happens on. */
  readonly hops: readonly { readonly segment: number; readonly at: Spot; readonly over: number }[];
}

export type TextRole = "designation" | "name" | "pin" | "wire" | "ground" | "bar" | "link" | "zone" | "tag" | "step";

export interface TextItem {
  readonly id: string;
  readonly role: TextRole;
  readonly text: string;
  /** Start of the baseline; an upright text reads upwards from here. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly bold: boolean;
  readonly anchor: "start" | "middle" | "end";
  readonly upright: boolean;
  readonly dim: boolean;
  readonly room: Rect;
}

export interface BarItem {
  readonly id: string;
  readonly box: string;
  /** Numbers of other zones that show the same joint. */
  readonly alsoIn: readonly string[];
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
  readonly dim: boolean;
}

export interface DotItem {
  readonly id: string;
  readonly at: Spot;
  readonly kind: "joint" | "terminal";
  readonly dim: boolean;
}

/** A volt tag or a step disc. */
export interface MarkItem {
  readonly kind: "volts" | "step" | "ring";
  readonly at: Spot;
  readonly text: string;
  readonly sleeve: Sleeve | undefined;
  readonly radius: number;
  readonly width: number;
}

/** The border of a zone; its name stands in its corner as a text. */
export interface ZoneItem {
  readonly id: string;
  readonly room: Rect;
}

export interface Scene {
  readonly title: string;
  /** What stands at (x, y) of the layout, in units, is drawn at PX · (x, y) less this. */
  readonly origin: Spot;
  readonly width: number;
  readonly height: number;
  readonly zones: readonly ZoneItem[];
  readonly symbols: readonly SymbolItem[];
  readonly bars: readonly BarItem[];
  readonly wires: readonly WireItem[];
  readonly dots: readonly DotItem[];
  readonly texts: readonly TextItem[];
  readonly marks: readonly MarkItem[];
}

/** What to light. With a path, everything else drops back. */
export interface Marks {
  /** Wires and parts that stay lit. */
  readonly path?: readonly string[];
  readonly states?: Readonly<Record<string, Sleeve>>;
  readonly volts?: readonly { readonly at: string; readonly text: string; readonly sleeve: Sleeve }[];
  /** Terminals at which the path enters its parts, in order: they are numbered. */
  readonly steps?: readonly string[];
  readonly ring?: string | undefined;
  readonly parts?: Readonly<Record<string, DrawnState>>;
}

export const PX = 10;
