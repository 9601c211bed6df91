import { amps, volts } from "../../panels/words.ts";
import type { Geometry } from "./geometry.ts";
import { type Lane, type LineLane, lineAt } from "./lanes.ts";
import type { Overlap } from "./overlap.ts";

interface NamesProps {
  readonly lanes: readonly Lane[];
  readonly geometry: Geometry;
  readonly readings: readonly string[];
  readonly takeAway: (terminal: string) => void;
}

/** What each lane is, its marks, and what it reads at the cursor. They stay while the paper is scrolled. */
export function Names({ lanes, geometry: { left, flag, height, tracks }, readings, takeAway }: NamesProps) {
  return (
    <ul className="strip-names" style={{ width: left, height }}>
      {lanes.map((lane, k) => {
        const track = tracks[k];
        if (track === undefined) return null;
        return (
          <li key={lane.key} className={lane.kind} style={{ top: track.top, height: track.height }}>
            <p title={`${lane.id} ${lane.says}`}>
              <b>{lane.id}</b> {lane.says}
              {lane.kind === "line" && lane.unit === "V" && (
                <button
                  type="button"
                  className="word"
                  aria-label={`Take ${lane.id} away`}
                  onClick={() => takeAway(lane.id)}
                >
                  ×
                </button>
              )}
            </p>
            <output data-lane={lane.key}>{readings[k]}</output>
            {lane.kind === "line" &&
              track.marks.map((m) => (
                <span key={m} className="mark-value" style={{ top: track.y(m) - track.top }}>
                  {markWords(lane, m)}
                </span>
              ))}
          </li>
        );
      })}
      {flag > 20 && <li className="flag-room" style={{ top: 0, height: flag }} />}
    </ul>
  );
}

/** Plain figures; the unit only where the reading does not say it. */
const markWords = ({ unit }: LineLane, value: number): string =>
  value === 0 ? "0" : unit === "A" ? amps(value) : volts(value).replace(/\.0+(?=\u00a0)/, "");

interface NeedleProps {
  readonly lanes: readonly Lane[];
  readonly ms: readonly number[];
  readonly geometry: Geometry;
  readonly at: number;
}

/** The cursor: a pencil line through all lanes, a ring where it meets a line. */
export function Needle({ lanes, ms, geometry: { width, height, flag, tracks, x }, at }: NeedleProps) {
  return (
    <svg className="strip-needle" width={width} height={height} aria-hidden="true">
      <path d={`M${x(at)} ${flag}V${height}`} />
      {lanes.map((lane, k) => {
        const value = lane.kind === "line" ? lineAt(lane, ms, at) : undefined;
        const track = tracks[k];
        return value === undefined || track === undefined ? null : (
          <circle key={lane.key} cx={x(at)} cy={track.y(value)} r="4" />
        );
      })}
    </svg>
  );
}

/** Between the flag and the lanes. */
const FLAG_GAP = 8;

/** The margin in ms and in a sentence, over the hatched stretch. */
export function Flag({ overlap, geometry: { x, width, flag, flagWidth } }: { overlap: Overlap; geometry: Geometry }) {
  const middle = x((overlap.from + overlap.to) / 2);
  const left = Math.max(4, Math.min(width - flagWidth - 4, middle - flagWidth / 2));
  return (
    <div className="strip-flag" style={{ left, width: flagWidth, height: flag - FLAG_GAP - 2 }}>
      <strong>{overlap.head}</strong>
      <p>{overlap.says}</p>
    </div>
  );
}

/** The clock, with the cursor's time; it stays at the foot of the box. */
export function Axis({ geometry, at, overlap }: { geometry: Geometry; at: number; overlap: Overlap | undefined }) {
  const { left, width, clock, x } = geometry;
  const tag = 66;
  const tagAt = Math.max(tag / 2, Math.min(width - tag / 2, x(at)));
  const isFree = (ms: number) => Math.abs(x(ms) - tagAt) > tag / 2 + 22;
  return (
    <div className="strip-axis">
      <span style={{ width: left }}>{overlap && `hatched: ${overlap.hatched}`}</span>
      <svg width={width} height="26" aria-hidden="true">
        {clock.filter(isFree).map((ms) => (
          <text key={ms} x={Math.max(4, x(ms))} y="17" textAnchor={x(ms) < 12 ? "start" : "middle"}>
            {ms}
            {ms === clock.at(-1) ? " ms" : ""}
          </text>
        ))}
        <g className="cursor-time">
          <rect x={tagAt - tag / 2} y="3" width={tag} height="20" rx="3" />
          <text x={tagAt} y="17.5" textAnchor="middle">
            {at.toFixed(1)} ms
          </text>
        </g>
      </svg>
    </div>
  );
}
