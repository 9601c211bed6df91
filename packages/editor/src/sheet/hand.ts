import type { Hit } from "@loomproof/drawing";
import type { ShelfItem } from "@loomproof/netlist";

// What a hand is doing on the sheet, as plain data. Spots are px of the sheet at 100 %.

export interface Spot {
  readonly x: number;
  readonly y: number;
}

export type Hand =
  | { readonly kind: "free"; readonly over: Hit | undefined }
  /** Down on something, not yet moved. */
  | { readonly kind: "pressed"; readonly hit: Hit; readonly from: Spot }
  | { readonly kind: "moving"; readonly part: string; readonly box: string; readonly from: Spot; readonly to: Spot }
  | {
      readonly kind: "wiring";
      readonly from: { readonly terminal: string; readonly at: Spot };
      readonly to: Spot;
      readonly over: Hit | undefined;
    }
  /** Something from the shelf; no spot as long as it is not over the sheet. */
  | { readonly kind: "carrying"; readonly item: ShelfItem; readonly to: Spot | undefined };

export const FREE: Hand = { kind: "free", over: undefined };

/** What a hand has asked for. */
export type Deed =
  | { readonly kind: "pick"; readonly hit: Hit | undefined }
  | { readonly kind: "move"; readonly part: string; readonly box: string; readonly dx: number; readonly dy: number }
  | { readonly kind: "wire"; readonly from: string; readonly to: string }
  /** A wire that was let go over a part: to which of its terminals is still to be said. */
  | { readonly kind: "choose"; readonly from: string; readonly part: string; readonly at: Spot }
  | { readonly kind: "splice"; readonly from: string; readonly wire: string; readonly at: Spot }
  | { readonly kind: "place"; readonly item: ShelfItem; readonly at: Spot };

/** One unit of the grid, px. */
const UNIT = 10;
const snapped = (v: number): number => Math.round(v / UNIT) * UNIT;

/** By how much a part is moved: whole units. */
export const moveOf = ({
  from,
  to,
}: Extract<Hand, { kind: "moving" }>): { readonly dx: number; readonly dy: number } => ({
  dx: snapped(to.x - from.x),
  dy: snapped(to.y - from.y),
});

/** The hand after the pointer came to a spot. `far`: further from where it went down than a click may stray. */
export function moveTo(hand: Hand, to: Spot, over: Hit | undefined, far: boolean): Hand {
  switch (hand.kind) {
    case "free":
      return same(hand.over, over) ? hand : { kind: "free", over };
    case "pressed":
      return far ? begun(hand, to, over) : hand;
    case "moving":
    case "carrying":
      return { ...hand, to };
    case "wiring":
      return { ...hand, to, over };
    default:
      return hand satisfies never;
  }
}

const same = (a: Hit | undefined, b: Hit | undefined): boolean => a?.kind === b?.kind && a?.id === b?.id;

/** From a terminal a wire is drawn; a part is moved; a wire stays where it is. */
function begun({ hit, from }: Extract<Hand, { kind: "pressed" }>, to: Spot, over: Hit | undefined): Hand {
  switch (hit.kind) {
    case "terminal":
      return { kind: "wiring", from: { terminal: hit.id, at: hit.at }, to, over };
    case "part":
      return { kind: "moving", part: hit.id, box: hit.box, from, to };
    case "wire":
      return FREE;
    default:
      return hit satisfies never;
  }
}

/** What the hand asks for when it lets go. */
export function letGo(hand: Hand): Deed | undefined {
  switch (hand.kind) {
    case "free":
      return undefined;
    case "pressed":
      return { kind: "pick", hit: hand.hit };
    case "moving": {
      const { dx, dy } = moveOf(hand);
      return dx === 0 && dy === 0
        ? undefined
        : { kind: "move", part: hand.part, box: hand.box, dx: dx / UNIT, dy: dy / UNIT };
    }
    case "wiring":
      return wired(hand);
    case "carrying":
      return hand.to === undefined ? undefined : { kind: "place", item: hand.item, at: hand.to };
    default:
      return hand satisfies never;
  }
}

function wired({ from: { terminal: from }, over, to }: Extract<Hand, { kind: "wiring" }>): Deed | undefined {
  if (over === undefined) return undefined;
  switch (over.kind) {
    case "terminal":
      return over.id === from ? undefined : { kind: "wire", from, to: over.id };
    case "part":
      return from.startsWith(`${over.id}.`) ? undefined : { kind: "choose", from, part: over.id, at: to };
    case "wire":
      return { kind: "splice", from, wire: over.id, at: over.at };
    default:
      return over satisfies never;
  }
}
