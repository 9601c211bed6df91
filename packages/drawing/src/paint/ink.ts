// What to put on paper, in colours: the last form of a drawing before SVG or canvas. Both write the same list, so they
// never differ in geometry.

export interface PathInk {
  readonly kind: "path";
  /** SVG path commands; a canvas takes the same text. */
  readonly d: string;
  readonly fill?: string;
  readonly stroke?: string;
  readonly width?: number;
  readonly dash?: readonly number[];
  readonly roundCap?: boolean;
  readonly roundJoin?: boolean;
}

interface RectInk {
  readonly kind: "rect";
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Radius of the corners. */
  readonly corner?: number;
  readonly fill?: string;
  readonly stroke?: string;
  readonly line?: number;
}

interface CircleInk {
  readonly kind: "circle";
  readonly x: number;
  readonly y: number;
  readonly radius: number;
  readonly fill?: string;
  readonly stroke: string;
  readonly line: number;
}

export interface TextInk {
  readonly kind: "text";
  /** Start, middle or end of the baseline; an upright text reads upwards from here. */
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly anchor: "start" | "middle" | "end";
  readonly upright: boolean;
  readonly fill: string;
  /** One after the other. */
  readonly words: readonly { readonly text: string; readonly weight: 400 | 650 | 700 }[];
  /** An edge in the sheet's colour, where the text may stand on something. */
  readonly halo?: { readonly colour: string; readonly width: number };
}

/** Ink moved and scaled, mirrored about the middle of `mirrored` px where that is given. */
export interface GroupInk {
  readonly kind: "group";
  readonly x: number;
  readonly y: number;
  readonly scale: number;
  readonly mirrored?: number;
  readonly ink: readonly Ink[];
}

export type Ink = PathInk | RectInk | CircleInk | TextInk | GroupInk;
