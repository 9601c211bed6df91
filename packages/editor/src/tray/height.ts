import { type KeyboardEvent, type PointerEvent, type RefObject, useRef, useState } from "react";

const LEAST = 90;
/** Of the page's height. */
const MOST = 0.6;
const STEP = 40;
/** Where the bottom sheet of a phone stops: its tabs only, half, all. */
const STOPS = ["64px", "50%", "100%"] as const;
const FULL = STOPS.length - 1;
/** A press that moved less than this is a tap. */
const TAP = 6;

/** How high the tray is: dragged freely, or on a phone from stop to stop. Undefined as long as nobody has moved it. */
export function useTrayHeight(
  tray: RefObject<HTMLElement | null>,
  { isNarrow, isFilled, fill }: { isNarrow: boolean; isFilled: boolean; fill: (isFilled: boolean) => void },
) {
  const [dragged, drag] = useState<string>();
  const [low, setLow] = useState(1);
  // Where it fills the page, others can bring the drawing back.
  const stop = isFilled ? FULL : low;
  const grip = useRef<{ readonly y: number; readonly height: number } | undefined>(undefined);
  const tall = () => tray.current?.parentElement?.clientHeight ?? window.innerHeight;
  const set = (px: number) => drag(`${Math.round(Math.min(tall() * MOST, Math.max(LEAST, px)))}px`);
  const now = () => tray.current?.clientHeight ?? 0;
  const setStop = (to: number) => {
    fill(to === FULL);
    if (to !== FULL) setLow(to);
  };
  const next = (by: number) => setStop(Math.min(FULL, Math.max(0, stop + by)));

  const edge = {
    "aria-label": isNarrow ? "More or less of the findings" : "Height of the tray",
    onPointerDown: (event: PointerEvent) => {
      grip.current = { y: event.clientY, height: now() };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent) => {
      if (grip.current !== undefined && !isNarrow) set(grip.current.height + grip.current.y - event.clientY);
    },
    onPointerUp: (event: PointerEvent) => {
      if (grip.current === undefined) return;
      const up = grip.current.y - event.clientY;
      grip.current = undefined;
      if (!isNarrow) return;
      // A tap goes to the next stop and from the last to the first; a drag goes its way.
      if (Math.abs(up) >= TAP) next(up > 0 ? 1 : -1);
      else setStop((stop + 1) % STOPS.length);
    },
    onPointerCancel: () => {
      grip.current = undefined;
    },
    onKeyDown: (event: KeyboardEvent) => {
      const by = { ArrowUp: 1, ArrowDown: -1 }[event.key];
      if (by === undefined) return;
      event.preventDefault();
      if (isNarrow) next(by);
      else set(now() + by * STEP);
    },
  };
  return { height: isNarrow ? STOPS[stop] : dragged, edge };
}
