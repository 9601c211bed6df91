import { type KeyboardEvent, type PointerEvent, type RefObject, useCallback, useEffect, useRef, useState } from "react";

interface Size {
  readonly width: number;
  readonly height: number;
}

/** A part of the drawing, px at 100 %. */
export interface Area {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

interface View {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

const LEAST = 0.15;
const MOST = 4;
const PAN_STEP = 60;
/** Below this a drawing that fits can only be seen, not read. */
const SEEN = 0.65;
/** Its texts stand a little above 10 px. */
const READ = 1;
const CLOSEST = 1.4;
const AROUND = 40;
const STEPS: ReadonlyMap<string, readonly [number, number]> = new Map([
  ["ArrowLeft", [PAN_STEP, 0]],
  ["ArrowRight", [-PAN_STEP, 0]],
  ["ArrowUp", [0, PAN_STEP]],
  ["ArrowDown", [0, -PAN_STEP]],
]);
const clamp = (scale: number) => Math.min(MOST, Math.max(LEAST, scale));

/** Where the drawing stands in its frame. Fits by itself until a person moves it. */
export function usePanZoom(frame: RefObject<HTMLDivElement | null>, content: Size) {
  const [view, setView] = useState<View>({ x: 0, y: 0, scale: 1 });
  const isMoved = useRef(false);
  const grip = useRef<{ readonly x: number; readonly y: number } | undefined>(undefined);

  const fit = useCallback(() => {
    const box = frame.current?.getBoundingClientRect();
    if (box === undefined) return;
    const scale = clamp(Math.min(box.width / content.width, box.height / content.height));
    isMoved.current = false;
    setView({ scale, x: (box.width - content.width * scale) / 2, y: (box.height - content.height * scale) / 2 });
  }, [frame, content.width, content.height]);

  /** Brings an area into view. Where it would be too small to see, its heart is shown at a size that can be read. */
  const show = useCallback(
    (area: Area, heart: Area) => {
      const box = frame.current?.getBoundingClientRect();
      if (box === undefined) return;
      const fitting = Math.min(
        box.width / (area.x1 - area.x0 + 2 * AROUND),
        box.height / (area.y1 - area.y0 + 2 * AROUND),
      );
      const scale = fitting < SEEN ? READ : Math.min(fitting, CLOSEST);
      const { x0, x1, y0, y1 } = fitting < SEEN ? heart : area;
      isMoved.current = true;
      setView({ scale, x: box.width / 2 - ((x0 + x1) / 2) * scale, y: box.height / 2 - ((y0 + y1) / 2) * scale });
    },
    [frame],
  );

  const zoomAt = useCallback((factor: number, x: number, y: number) => {
    isMoved.current = true;
    setView((v) => {
      const scale = clamp(v.scale * factor);
      const by = scale / v.scale;
      return { scale, x: x - (x - v.x) * by, y: y - (y - v.y) * by };
    });
  }, []);

  const zoomBy = useCallback(
    (factor: number) => {
      const box = frame.current?.getBoundingClientRect();
      zoomAt(factor, (box?.width ?? 0) / 2, (box?.height ?? 0) / 2);
    },
    [frame, zoomAt],
  );

  useEffect(() => {
    const element = frame.current;
    if (element === null) return;
    const watch = new ResizeObserver(() => {
      if (!isMoved.current) fit();
    });
    watch.observe(element);
    // React's wheel listener is passive; the page must not scroll while the drawing zooms.
    const wheel = (event: WheelEvent) => {
      event.preventDefault();
      const box = element.getBoundingClientRect();
      zoomAt(event.deltaY < 0 ? 1.12 : 1 / 1.12, event.clientX - box.left, event.clientY - box.top);
    };
    element.addEventListener("wheel", wheel, { passive: false });
    return () => {
      watch.disconnect();
      element.removeEventListener("wheel", wheel);
    };
  }, [frame, fit, zoomAt]);

  const pan = (dx: number, dy: number) => {
    isMoved.current = true;
    setView((v) => ({ ...v, x: v.x + dx, y: v.y + dy }));
  };

  /** What a key does to the drawing. */
  const moveOf = (key: string): (() => void) | undefined => {
    if (key === "+") return () => zoomBy(1.25);
    if (key === "-") return () => zoomBy(0.8);
    if (key === "0") return fit;
    const step = STEPS.get(key);
    return step === undefined ? undefined : () => pan(step[0], step[1]);
  };

  const letGo = () => {
    grip.current = undefined;
  };
  const handlers = {
    onPointerDown: (event: PointerEvent) => {
      if (event.target instanceof Element && event.target.closest("button")) return;
      grip.current = { x: event.clientX, y: event.clientY };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent) => {
      if (grip.current === undefined) return;
      pan(event.clientX - grip.current.x, event.clientY - grip.current.y);
      grip.current = { x: event.clientX, y: event.clientY };
    },
    onPointerUp: letGo,
    onPointerCancel: letGo,
    onKeyDown: (event: KeyboardEvent) => {
      const move = moveOf(event.key);
      if (move === undefined) return;
      event.preventDefault();
      move();
    },
  };

  return { transform: `translate(${view.x}px, ${view.y}px) scale(${view.scale})`, fit, show, zoomBy, handlers };
}
