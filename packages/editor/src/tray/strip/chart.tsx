import { type Timeline, toldEvents } from "@loomproof/analyzer";
import { type KeyboardEvent, type PointerEvent, useEffect, useMemo, useRef, useState } from "react";
import { useNarrow } from "../../session/use-narrow.ts";
import { Axis, Flag, Names, Needle } from "./chart-words.tsx";
import { type Geometry, geometryOf } from "./geometry.ts";
import { type Lane, readingAt } from "./lanes.ts";
import type { Overlap } from "./overlap.ts";
import { Shapes } from "./shapes.tsx";

interface Props {
  readonly lanes: readonly Lane[];
  readonly timeline: Timeline;
  /** The end of the clock, ms. */
  readonly until: number;
  readonly overlap: Overlap | undefined;
  /** Where the cursor stands, ms. */
  readonly at: number;
  readonly move: (ms: number) => void;
  readonly takeAway: (terminal: string) => void;
  /** How many times as wide as its box. */
  readonly zoom: number;
  readonly isOld: boolean;
}

/** The cursor goes so far with an arrow key, px. */
const STEP = 2;

/** Lanes over one clock, with a cursor that is moved by mouse, finger and keys. It scrolls in its own box. */
export function Chart({ lanes, timeline, until, overlap, at, move, takeAway, zoom, isOld }: Props) {
  const isNarrow = useNarrow();
  const box = useRef<HTMLDivElement>(null);
  const width = useWidth(box);
  const geometry = useMemo(
    () => geometryOf(lanes, { width, zoom, until, isNarrow, letters: overlap?.says.length }),
    [lanes, width, zoom, until, isNarrow, overlap],
  );
  const { x, msAt, left } = geometry;
  const readings = lanes.map((lane) => readingAt(lane, timeline.traces.ms, at));
  // What is zoomed stays round the cursor.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only another zoom moves the paper
  useEffect(() => {
    if (box.current !== null && zoom > 1) box.current.scrollLeft = x(at) - (width - left) / 2;
  }, [zoom]);
  const go = (ms: number) => {
    const to = Math.max(0, Math.min(until, ms));
    move(to);
    const { current } = box;
    if (current === null) return;
    const seen = current.clientWidth - left;
    if (x(to) < current.scrollLeft) current.scrollLeft = x(to) - seen / 4;
    else if (x(to) > current.scrollLeft + seen) current.scrollLeft = x(to) - (3 * seen) / 4;
  };
  const press = (event: KeyboardEvent) => {
    const to = stepped(event, at, msAt(STEP) - msAt(0), timeline, until);
    if (to === undefined) return;
    event.preventDefault();
    go(to);
  };
  const point = (event: PointerEvent<HTMLElement>) => {
    if (event.type === "pointermove" && event.pointerType !== "mouse") return;
    const from = event.currentTarget.getBoundingClientRect().left;
    move(Math.max(0, Math.min(until, msAt(event.clientX - from))));
  };
  return (
    <div className={`strip-frame${isOld ? " stale" : ""}`}>
      <div className="strip-scroll" ref={box}>
        {width > 0 && (
          <div className="strip-sheet" style={{ width: left + geometry.width }}>
            <Names lanes={lanes} geometry={geometry} readings={readings} takeAway={takeAway} />
            <div
              className="strip-plot"
              role="slider"
              tabIndex={0}
              aria-label="Cursor over the strip chart"
              aria-valuemin={0}
              aria-valuemax={Number(until.toFixed(1))}
              aria-valuenow={Number(at.toFixed(2))}
              aria-valuetext={`${at.toFixed(1)} ms: ${lanes.map((l, k) => `${l.id} ${l.says} ${readings[k]}`).join(", ")}`}
              onKeyDown={press}
              onPointerMove={point}
              onPointerDown={point}
            >
              <Shapes lanes={lanes} ms={timeline.traces.ms} geometry={geometry} overlap={overlap} />
              <Needle lanes={lanes} ms={timeline.traces.ms} geometry={geometry} at={at} />
              {overlap !== undefined && <Flag overlap={overlap} geometry={geometry} />}
            </div>
            <Axis geometry={geometry} at={at} overlap={overlap} />
          </div>
        )}
      </div>
    </div>
  );
}

/** Where a key leads: arrows a little, with Shift and the page keys from event to event. */
function stepped(
  { key, shiftKey }: KeyboardEvent,
  at: number,
  step: number,
  timeline: Timeline,
  until: number,
): number | undefined {
  const events = [...new Set(toldEvents(timeline).map((e) => e.ms))].filter((ms) => ms <= until);
  const before = events.findLast((ms) => ms < at) ?? 0;
  const after = events.find((ms) => ms > at) ?? until;
  switch (key) {
    case "ArrowLeft":
      return shiftKey ? before : at - step;
    case "ArrowRight":
      return shiftKey ? after : at + step;
    case "PageUp":
      return before;
    case "PageDown":
      return after;
    case "Home":
      return 0;
    case "End":
      return until;
    default:
      return undefined;
  }
}

/** How wide the box is, px. */
function useWidth(box: React.RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState<Geometry["width"]>(0);
  useEffect(() => {
    if (box.current === null) return;
    const watch = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)));
    watch.observe(box.current);
    return () => watch.disconnect();
  }, [box]);
  return width;
}
