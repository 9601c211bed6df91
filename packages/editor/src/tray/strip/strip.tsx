import { chartEnd, endWords, type Finding, type Timeline, timelineCsv, toldEvents } from "@loomproof/analyzer";
import type { ResolvedLoom } from "@loomproof/netlist";
import { useMemo, useState } from "react";
import { SeverityShape } from "../../panels/severity.tsx";
import { download } from "../../session/files.ts";
import { useAnswer } from "../../session/use-answer.ts";
import { Waiting } from "../waiting.tsx";
import { Chart } from "./chart.tsx";
import { firstTerminals, lanesOf } from "./lanes.ts";
import { storyMoves } from "./moves.ts";
import { MovesField } from "./moves-field.tsx";
import { overlapOf } from "./overlap.ts";
import { type Times, TimesChoice } from "./times-choice.tsx";
import { VoltsField } from "./volts-field.tsx";

interface Props {
  readonly isShown: boolean;
  /** The proved loom as text; undefined as long as there is none. */
  readonly text: string | undefined;
  readonly title: string;
  readonly resolved: ResolvedLoom;
  /** The picked finding: its story is played unless a person types moves of their own. */
  readonly finding: Finding | undefined;
  /** The loom was edited since. */
  readonly isStale: boolean;
  readonly fill: { readonly isFilled: boolean; readonly turn: () => void } | undefined;
}

const MOST_ZOOM = 64;

/** Coil currents, contacts and volts over milliseconds. */
export function Strip({ isShown, text, title, resolved, finding, isStale, fill }: Props) {
  const story = storyMoves(finding);
  const [typed, type] = useState<{ readonly of: string; readonly moves: string }>();
  const moves = typed?.of === story ? typed.moves : story;
  const [zoom, setZoom] = useState(1);
  const [times, choose] = useState<Times>("usual");
  const question = useMemo(
    () => (text === undefined || moves === "" ? undefined : ({ kind: "play", text, moves, times } as const)),
    [text, moves, times],
  );
  const seen = useAnswer<"play">(isShown ? question : undefined);
  const played = moves === "" ? undefined : seen.answer;
  const timeline = played?.ok === true ? played.timeline : undefined;
  const isOld = timeline !== undefined && (isStale || seen.of !== question);
  if (resolved.parts.length === 0)
    return <p className="hint">Once something is drawn, what it does in milliseconds stands here.</p>;
  if (text === undefined) return <Waiting asks={seen} says="" isReady={false} />;
  return (
    <div className="strip-body">
      <header className="panel-head">
        <h3>Strip chart</h3>
        <MovesField
          key={story}
          resolved={resolved}
          moves={moves}
          problem={played?.ok === false && !seen.isAsking ? played.problem : undefined}
          play={(m) => type({ of: story, moves: m })}
        />
        <TimesChoice times={times} choose={choose} />
        {timeline !== undefined && (
          <div className="zoom">
            <button type="button" onClick={() => setZoom(Math.max(1, zoom / 2))} aria-label="Longer time">
              −
            </button>
            <button type="button" onClick={() => setZoom(Math.min(MOST_ZOOM, zoom * 2))} aria-label="Closer in time">
              +
            </button>
            <button type="button" onClick={() => setZoom(1)}>
              All
            </button>
          </div>
        )}
        {timeline !== undefined && (
          <button
            type="button"
            className="word"
            onClick={() => download(`${title || "loom"} strip chart.csv`, `${timelineCsv(timeline)}\n`, "text/csv")}
          >
            Save as table
          </button>
        )}
        {fill !== undefined && (
          <button type="button" className="plain" onClick={fill.turn}>
            {fill.isFilled ? "Back to the drawing" : "Fill the page"}
          </button>
        )}
        {isOld && <p className="as-of">{seen.isAsking ? "Playing again." : "As of before your last edit."}</p>}
      </header>
      {timeline !== undefined ? (
        <Played timeline={timeline} resolved={resolved} finding={finding} zoom={zoom} isOld={isOld} />
      ) : question !== undefined && (seen.isAsking || seen.isStopped || seen.failure !== undefined) ? (
        <Waiting asks={seen} says="What happens, millisecond by millisecond" isReady />
      ) : (
        !seen.isAsking && (
          <p className="hint">
            Pick a finding and its story is played here, or type moves: a time, then what is moved and where to.
          </p>
        )
      )}
    </div>
  );
}

const sentence = (says: string): string => `${says.charAt(0).toUpperCase()}${says.slice(1)}.`;

interface PlayedProps {
  readonly timeline: Timeline;
  readonly resolved: ResolvedLoom;
  readonly finding: Finding | undefined;
  readonly zoom: number;
  readonly isOld: boolean;
}

function Played({ timeline, resolved, finding, zoom, isOld }: PlayedProps) {
  const [added, add] = useState<{ readonly of: string | undefined; readonly terminals: readonly string[] }>();
  const terminals = useMemo(
    () => (added !== undefined && added.of === finding?.id ? added.terminals : firstTerminals(finding)),
    [added, finding],
  );
  const overlap = useMemo(() => overlapOf(timeline, finding), [timeline, finding]);
  const until = Math.max(chartEnd(timeline), 1.04 * (overlap?.to ?? 0));
  const lanes = useMemo(() => lanesOf(resolved, timeline, terminals, until), [resolved, timeline, terminals, until]);
  const [cursor, setCursor] = useState<{ readonly of: Timeline; readonly at: number }>();
  const told = useMemo(() => toldEvents(timeline), [timeline]);
  const at = cursor?.of === timeline ? cursor.at : (overlap?.from ?? told.at(-1)?.ms ?? 0);
  const last = told.findLast((e) => e.ms <= at);
  const together = told.filter((e) => e.ms === last?.ms).map((e) => e.says);
  const set = (list: readonly string[]) => add({ of: finding?.id, terminals: list });
  return (
    <>
      <Chart
        lanes={lanes}
        timeline={timeline}
        until={until}
        overlap={overlap}
        at={at}
        move={(ms) => setCursor({ of: timeline, at: ms })}
        takeAway={(terminal) => set(terminals.filter((t) => t !== terminal))}
        zoom={zoom}
        isOld={isOld}
      />
      <footer className={`cell-foot ${overlap === undefined ? "" : "danger"}`}>
        {timeline.end !== "at rest" && <SeverityShape severity="fault" size={20} />}
        <p>
          {last !== undefined && (
            <>
              <strong>{last.ms.toFixed(1)}&nbsp;ms:</strong> {sentence(together.join(", "))}{" "}
            </>
          )}
          {last === told.at(-1) && endWords(timeline)}
        </p>
        <VoltsField
          choices={Object.keys(timeline.traces.volts).filter((t) => !terminals.includes(t))}
          add={(terminal) => set([...terminals, terminal])}
        />
      </footer>
    </>
  );
}
