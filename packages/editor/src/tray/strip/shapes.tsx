import { memo, useId } from "react";
import type { Geometry, Track } from "./geometry.ts";
import type { BarLane, Lane, LineLane } from "./lanes.ts";
import type { Overlap } from "./overlap.ts";
import { freest, pathOf, thinned } from "./thin.ts";

interface Props {
  readonly lanes: readonly Lane[];
  readonly ms: readonly number[];
  readonly geometry: Geometry;
  readonly overlap: Overlap | undefined;
}

/** All that does not move with the cursor. */
export const Shapes = memo(function Shapes({ lanes, ms, geometry, overlap }: Props) {
  const { width, height, flag, tracks, x, clock } = geometry;
  return (
    <svg className="strip-shapes" width={width} height={height} aria-hidden="true">
      <path className="grid" d={clock.map((t) => `M${x(t).toFixed(1)} ${flag}V${height}`).join("")} />
      {overlap !== undefined && <Hatch overlap={overlap} geometry={geometry} />}
      {lanes.map((lane, k) => {
        const track = tracks[k];
        if (track === undefined) return null;
        return (
          <g key={lane.key}>
            <path className="rule" d={`M0 ${track.top + track.height - 0.5}H${width}`} />
            {lane.kind === "bar" ? (
              <Bars lane={lane} track={track} geometry={geometry} />
            ) : (
              <Line lane={lane} track={track} ms={ms} geometry={geometry} />
            )}
          </g>
        );
      })}
    </svg>
  );
});

/** Slanted lines in a tint, an edge at both ends; a dashed line where it is no longer sure. */
function Hatch({ overlap, geometry: { x, flag, height } }: { overlap: Overlap; geometry: Geometry }) {
  const id = useId();
  const [from, to] = [x(overlap.from), x(overlap.to)];
  return (
    <g className="hatch">
      <pattern id={id} width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path d="M0 0V9" />
      </pattern>
      <rect className="tint" x={from} y={flag - 6} width={to - from} height={height - flag + 6} />
      <rect fill={`url(#${id})`} x={from} y={flag - 6} width={to - from} height={height - flag + 6} />
      <path className="edge-line" d={`M${from} ${flag - 6}V${height}M${to} ${flag - 6}V${height}`} />
      {overlap.surely !== undefined && overlap.surely < overlap.to && (
        <path className="surely" d={`M${x(overlap.surely)} ${flag}V${height}`} />
      )}
    </g>
  );
}

const BAR_PAD = 9;
/** About as wide is a letter of the words in a bar, px. */
const LETTER = 7;

function Bars({ lane, track, geometry: { x } }: { lane: BarLane; track: Track; geometry: Geometry }) {
  return (
    <g className="bars">
      {lane.spans.map(({ from, to, says, isOn }) => {
        const width = Math.max(1, x(to) - x(from));
        const y = track.top + BAR_PAD;
        return (
          <g key={from} className={isOn ? "on" : "off"}>
            <rect x={x(from)} y={y} width={width} height={track.height - 2 * BAR_PAD} />
            {width > says.length * LETTER + 16 && (
              <text x={x(from) + 8} y={track.top + track.height / 2 + 4.5}>
                {says}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

interface LineProps {
  readonly lane: LineLane;
  readonly track: Track;
  readonly ms: readonly number[];
  readonly geometry: Geometry;
}

/** About as wide is a letter of a limit's words, px. */
const SMALL_LETTER = 5.8;

function Line({ lane, track, ms, geometry: { x, width, end, page } }: LineProps) {
  const id = useId();
  const { y, top, height } = track;
  const lines = thinned(ms, lane.values, x, y);
  const spots = lines.flat();
  // As much of the paper as is seen at once has the words once.
  const pages = Array.from({ length: Math.ceil(end / page) }, (_, k) => k * page);
  // The higher limit is named above its line, the lower one below.
  const limits = [...lane.limits].sort((a, b) => b.at - a.at);
  return (
    <g className="line">
      <clipPath id={id}>
        <rect x={0} y={top} width={end} height={height} />
      </clipPath>
      <path className="rule" d={track.marks.map((m) => `M0 ${y(m).toFixed(1)}H${width}`).join("")} />
      {limits.map((limit) => (
        <path key={limit.says} className="limit" d={`M0 ${y(limit.at).toFixed(1)}H${end.toFixed(1)}`} />
      ))}
      <path className="trace" clipPath={`url(#${id})`} d={pathOf(lines)} />
      {limits.map((limit, k) => {
        const at = y(limit.at) + (k === 0 ? -4 : 12);
        return pages.map((from) => (
          <text
            key={`${limit.says} ${from}`}
            className="limit-words"
            x={freest(spots, { y: at - 4, width: limit.says.length * SMALL_LETTER, from, to: from + page })}
            y={at}
          >
            {limit.says}
          </text>
        ));
      })}
    </g>
  );
}
