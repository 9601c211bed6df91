import type { ShelfItem } from "@loomproof/netlist";
import { type PointerEvent as ReactPointerEvent, useRef } from "react";

/** So far a pointer may stray in a click, px. */
const STILL = 4;

interface Held {
  readonly item: ShelfItem;
  readonly pointer: number;
  readonly x: number;
  readonly y: number;
}

/** Tells once when a held item is dragged further than a click may stray; whoever is told has the pointer from then on. */
export function useCarry(carry: (item: ShelfItem, event: PointerEvent) => void) {
  const held = useRef<Held | undefined>(undefined);
  return (item: ShelfItem) => ({
    onPointerDown: (event: ReactPointerEvent) => {
      if (event.button !== 0 || event.pointerType === "touch") return;
      held.current = { item, pointer: event.pointerId, x: event.clientX, y: event.clientY };
      // A drag that leaves the item at once must still be heard.
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: ReactPointerEvent) => {
      const from = held.current;
      if (from?.pointer !== event.pointerId) return;
      if (Math.hypot(event.clientX - from.x, event.clientY - from.y) <= STILL) return;
      held.current = undefined;
      event.currentTarget.releasePointerCapture(event.pointerId);
      carry(from.item, event.nativeEvent);
    },
    onPointerUp: () => {
      held.current = undefined;
    },
    onPointerCancel: () => {
      held.current = undefined;
    },
  });
}
