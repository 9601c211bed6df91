import { type Hit, hitAt, type Scene } from "@loomproof/drawing";
import type { ShelfItem } from "@loomproof/netlist";
import { type PointerEvent, type RefObject, useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { Camera } from "./camera.ts";
import { type Deed, FREE, type Hand, letGo, moveTo, type Spot } from "./hand.ts";

/** So near a pointer is on something, px of the screen. */
const REACH = 9;
/** So far a click may stray, px of the screen. */
const STILL = 4;

interface Options {
  readonly frame: RefObject<HTMLElement | null>;
  readonly camera: Camera;
  readonly scene: Scene | undefined;
  readonly does: (deed: Deed) => void;
}

/** A hand on the sheet: it picks, moves, wires and places. What it does not take, moves the sheet. */
export function useHand({ frame, camera, scene, does }: Options) {
  const [hand, set] = useState<Hand>(FREE);
  const now = useRef<Hand>(FREE);
  const down = useRef<{ readonly x: number; readonly y: number } | undefined>(undefined);
  const become = useCallback((next: Hand) => {
    if (next === now.current) return;
    now.current = next;
    set(next);
  }, []);
  const spotOf = useCallback(
    ({ clientX, clientY }: { readonly clientX: number; readonly clientY: number }): Spot | undefined => {
      const box = frame.current?.getBoundingClientRect();
      if (box === undefined) return undefined;
      const { x, y, scale } = camera.view;
      return { x: (clientX - box.left - x) / scale, y: (clientY - box.top - y) / scale };
    },
    [frame, camera],
  );
  const hit = useCallback(
    (spot: Spot): Hit | undefined => scene && hitAt(scene, spot, REACH / camera.view.scale),
    [scene, camera],
  );
  const moved = useCallback(
    (event: { readonly clientX: number; readonly clientY: number }) => {
      const spot = spotOf(event);
      if (spot === undefined) return;
      const from = down.current;
      const far = from !== undefined && Math.hypot(event.clientX - from.x, event.clientY - from.y) > STILL;
      // While a part is moved nothing is asked of what it passes.
      const over = now.current.kind === "moving" ? undefined : hit(spot);
      become(moveTo(now.current, spot, over, far));
    },
    [spotOf, hit, become],
  );
  const ended = useCallback(() => {
    const deed = letGo(now.current);
    down.current = undefined;
    become(FREE);
    if (deed !== undefined) does(deed);
  }, [become, does]);
  const cancel = useCallback(() => {
    down.current = undefined;
    become(FREE);
  }, [become]);

  // A part from the shelf is carried over the whole page; over the sheet it has a spot.
  const isCarrying = hand.kind === "carrying";
  useEffect(() => {
    if (!isCarrying) return;
    const isOver = (event: globalThis.PointerEvent) => {
      const box = frame.current?.getBoundingClientRect();
      const { clientX: x, clientY: y } = event;
      return box !== undefined && x >= box.left && x <= box.right && y >= box.top && y <= box.bottom;
    };
    const move = (event: globalThis.PointerEvent) => {
      const { current } = now;
      if (current.kind !== "carrying") return;
      become({ ...current, to: isOver(event) ? spotOf(event) : undefined });
    };
    const drop = (event: globalThis.PointerEvent) => {
      move(event);
      ended();
    };
    const away = (event: KeyboardEvent) => {
      if (event.key === "Escape") cancel();
    };
    window.addEventListener("pointermove", move);
    window.addEventListener("pointerup", drop);
    window.addEventListener("pointercancel", cancel);
    window.addEventListener("keydown", away);
    return () => {
      window.removeEventListener("pointermove", move);
      window.removeEventListener("pointerup", drop);
      window.removeEventListener("pointercancel", cancel);
      window.removeEventListener("keydown", away);
    };
  }, [isCarrying, frame, spotOf, become, ended, cancel]);
  const carry = useCallback(
    (item: ShelfItem, event: globalThis.PointerEvent) => become({ kind: "carrying", item, to: spotOf(event) }),
    [become, spotOf],
  );

  const handlers = useMemo(
    () => ({
      /** Whether it is the hand's: then the sheet does not move. */
      down: (event: PointerEvent): boolean => {
        if (event.button !== 0 || event.pointerType === "touch") return false;
        const spot = spotOf(event);
        const found = spot && hit(spot);
        down.current = { x: event.clientX, y: event.clientY };
        if (spot === undefined || found === undefined) return false;
        become({ kind: "pressed", hit: found, from: spot });
        return true;
      },
      moved,
      ended,
      cancel,
      /** A click on nothing. */
      missed: (event: PointerEvent) => {
        const from = down.current;
        const isClick = from !== undefined && Math.hypot(event.clientX - from.x, event.clientY - from.y) <= STILL;
        down.current = undefined;
        if (isClick) does({ kind: "pick", hit: undefined });
      },
    }),
    [spotOf, hit, become, moved, ended, cancel, does],
  );
  return { hand, handlers, carry };
}
