import { type KeyboardEvent, type PointerEvent, type RefObject, useEffect, useMemo, useRef } from "react";
import type { Camera } from "./camera.ts";

const PAN_STEP = 60;
const ZOOM_STEP = 1.25;
/** How far a turn of the wheel zooms, for each px it reports. */
const WHEEL = 0.0016;
const STEPS: ReadonlyMap<string, readonly [number, number]> = new Map([
  ["ArrowLeft", [PAN_STEP, 0]],
  ["ArrowRight", [-PAN_STEP, 0]],
  ["ArrowUp", [0, PAN_STEP]],
  ["ArrowDown", [0, -PAN_STEP]],
]);

interface Grip {
  readonly x: number;
  readonly y: number;
}

/** A hand that may take a pointer before it moves the drawing. */
export interface Taker {
  readonly down: (event: PointerEvent) => boolean;
  readonly moved: (event: PointerEvent) => void;
  readonly ended: () => void;
  readonly cancel: () => void;
  readonly missed: (event: PointerEvent) => void;
  /** What a key does to what is picked; false if it is not for that. */
  readonly keys: (event: KeyboardEvent) => boolean;
}

/** Moves the drawing: drag, wheel, two fingers, keys. A hand, if there is one, has the first word. */
export function useGestures(frame: RefObject<HTMLElement | null>, camera: Camera, taker: Taker | undefined) {
  const grips = useRef(new Map<number, Grip>());
  const taken = useRef<number | undefined>(undefined);
  useEffect(() => {
    const element = frame.current;
    if (element === null) return;
    const measure = () => camera.setFrame({ width: element.clientWidth, height: element.clientHeight });
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    measure();
    // React's wheel listener is passive; the page must not scroll while the drawing zooms.
    const wheel = (event: WheelEvent) => {
      event.preventDefault();
      const box = element.getBoundingClientRect();
      const turn = event.deltaMode === 0 ? event.deltaY : event.deltaY * 33;
      const by = Math.exp(-Math.max(-200, Math.min(200, turn)) * WHEEL);
      camera.zoomAt(by, event.clientX - box.left, event.clientY - box.top);
    };
    element.addEventListener("wheel", wheel, { passive: false });
    return () => {
      watch.disconnect();
      element.removeEventListener("wheel", wheel);
    };
  }, [frame, camera]);

  return useMemo(() => {
    const letGo = (event: PointerEvent) => {
      grips.current.delete(event.pointerId);
      if (taken.current !== event.pointerId) {
        taker?.missed(event);
        return;
      }
      taken.current = undefined;
      taker?.ended();
    };
    return {
      onPointerDown: (event: PointerEvent) => {
        if (event.target instanceof Element && event.target.closest("button")) return;
        if (taker?.down(event)) {
          taken.current = event.pointerId;
          event.currentTarget.setPointerCapture(event.pointerId);
          return;
        }
        grips.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
        event.currentTarget.setPointerCapture(event.pointerId);
      },
      onPointerMove: (event: PointerEvent) => {
        const before = grips.current.get(event.pointerId);
        if (before === undefined) {
          if (grips.current.size === 0) taker?.moved(event);
          return;
        }
        const now = { x: event.clientX, y: event.clientY };
        const other = [...grips.current].find(([id]) => id !== event.pointerId)?.[1];
        grips.current.set(event.pointerId, now);
        if (other === undefined) {
          camera.pan(now.x - before.x, now.y - before.y);
          return;
        }
        // Two fingers: their middle carries the drawing, their distance zooms it.
        const box = event.currentTarget.getBoundingClientRect();
        const [was, is] = [apart(before, other), apart(now, other)];
        camera.pan((now.x - before.x) / 2, (now.y - before.y) / 2);
        if (was > 0) camera.zoomAt(is / was, (now.x + other.x) / 2 - box.left, (now.y + other.y) / 2 - box.top);
      },
      onPointerUp: letGo,
      onPointerCancel: (event: PointerEvent) => {
        grips.current.delete(event.pointerId);
        if (taken.current === event.pointerId) taken.current = undefined;
        taker?.cancel();
      },
      onKeyDown: (event: KeyboardEvent) => {
        if (event.key === "Escape" && taken.current !== undefined) {
          taken.current = undefined;
          taker?.cancel();
          return;
        }
        if (taker?.keys(event)) return;
        if (event.ctrlKey || event.metaKey || event.altKey) return;
        const move = moveOf(camera, event.key);
        if (move === undefined) return;
        event.preventDefault();
        move();
      },
    };
  }, [camera, taker]);
}

const apart = (p: Grip, q: Grip): number => Math.hypot(p.x - q.x, p.y - q.y);

/** What a key does to the drawing. */
function moveOf(camera: Camera, key: string): (() => void) | undefined {
  if (key === "+" || key === "=") return () => camera.zoomBy(ZOOM_STEP);
  if (key === "-") return () => camera.zoomBy(1 / ZOOM_STEP);
  if (key === "0") return camera.fit;
  const step = STEPS.get(key);
  return step === undefined ? undefined : () => camera.pan(step[0], step[1]);
}
