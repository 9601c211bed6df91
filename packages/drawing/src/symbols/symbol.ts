import type { FamilyId, PartWith } from "@loomproof/netlist";
import type { Stroke } from "./pen.ts";

/** Which end of a part is nearer to feed: 1 at battery +, 0 at ground. */
export type Potential = (terminal: string) => number;

export interface SymbolPin {
  readonly terminal: string;
  /** Units from the left edge; the pin sits on the top or bottom edge. */
  readonly x: number;
  readonly side: "top" | "bottom";
  /** Whether its number stands beside it. */
  readonly named: boolean;
}

/** How a part is drawn now: relays in or out, switches at a position, loads on or off. */
export interface DrawnState {
  readonly isIn?: boolean;
  readonly isOn?: boolean;
  readonly position?: string;
}

/** A part as drawn: its size in units, its pins and its strokes. Ink may reach beyond the frame by `left` and `right`. */
export interface PartSymbol {
  readonly w: number;
  readonly h: number;
  readonly pins: readonly SymbolPin[];
  readonly left: number;
  readonly right: number;
  readonly strokes: (state: DrawnState) => readonly Stroke[];
  /** May be drawn as in a mirror. */
  readonly mirrors: boolean;
  /** Pins may be moved along their edge (boxes whose inside is not drawn). */
  readonly stretches: boolean;
}

/** The side of a box on which a terminal meets what it is wired to; undefined if that is not known. */
export type Facing = (terminal: string) => "top" | "bottom" | undefined;

export type ToSymbol<K extends FamilyId> = (part: PartWith<K>, potential: Potential, facing: Facing) => PartSymbol;

/** Two terminals, the one nearer to feed on top. Ties keep the order of the family. */
export function upAndDown(a: string, b: string, potential: Potential): readonly [string, string] {
  return potential(a) < potential(b) - 1e-6 ? [b, a] : [a, b];
}

/** A symbol of two terminals, one over the other. */
export function column(
  terminals: readonly [string, string],
  x: number,
  w: number,
  strokes: (state: DrawnState, flipped: boolean) => readonly Stroke[],
  potential: Potential,
  more: Partial<PartSymbol> & { readonly named?: boolean } = {},
): PartSymbol {
  const [top, bottom] = upAndDown(terminals[0], terminals[1], potential);
  const { named = false, ...rest } = more;
  return {
    w,
    h: 6,
    left: 0,
    right: 0,
    mirrors: false,
    stretches: false,
    pins: [
      { terminal: top, x, side: "top", named },
      { terminal: bottom, x, side: "bottom", named },
    ],
    strokes: (state) => strokes(state, top !== terminals[0]),
    ...rest,
  };
}
