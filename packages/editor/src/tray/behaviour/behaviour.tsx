import type { Report } from "@loomproof/analyzer";
import type { Loom, ResolvedLoom } from "@loomproof/netlist";
import { useMemo, useState } from "react";
import type { Answered } from "../../session/use-answer.ts";
import { Waiting } from "../waiting.tsx";
import { CellFoot, type ShownCell } from "./cell-foot.tsx";
import { groupsOf } from "./columns.ts";
import { Grid } from "./grid.tsx";
import { Legend } from "./legend.tsx";
import type { Situation } from "./situation.ts";
import { wishesOf } from "./words.ts";

interface Props {
  readonly seen: Answered<"behaviour"> & { readonly stop: () => void; readonly again: () => void };
  /** The loom that the table is of, and what was found in it. */
  readonly loom: Loom | undefined;
  readonly resolved: ResolvedLoom;
  readonly report: Report | undefined;
  /** The loom was edited since. */
  readonly isStale: boolean;
  readonly show: (situation: Situation) => void;
  readonly openFinding: (id: string) => void;
  /** Fills the page, or goes back; undefined where the tray does that itself. */
  readonly fill: { readonly isFilled: boolean; readonly turn: () => void } | undefined;
}

const MOST_COLUMNS = 16;

/** What is on in which situation, and whether it is wanted so. */
export function Behaviour({ seen, loom, resolved, report, isStale, show, openFinding, fill }: Props) {
  const { answer } = seen;
  const [showsAll, showAll] = useState(false);
  const [picked, pick] = useState<ShownCell>();
  const table = answer?.table;
  const most = showsAll ? Number.POSITIVE_INFINITY : MOST_COLUMNS;
  const groups = useMemo(() => table && groupsOf(resolved, table, most), [resolved, table, most]);
  const wishes = useMemo(() => table && loom && wishesOf(loom, table), [table, loom]);
  if (loom !== undefined && loom.parts.length === 0)
    return <p className="hint">Once something is drawn, what is on in which situation stands here.</p>;
  if (answer === undefined || table === undefined || groups === undefined || wishes === undefined)
    return <Waiting asks={seen} says="What is on in which situation" isReady={loom !== undefined} />;
  const more = Math.max(0, table.situations.length - MOST_COLUMNS);
  const cell = picked !== undefined && picked.at < Math.min(most, table.situations.length) ? picked : undefined;
  return (
    <div className={`behaviour-body${isStale ? " stale" : ""}`}>
      <header className="panel-head">
        <h3>Behaviour</h3>
        <p>
          {table.situations.length} {table.situations.length === 1 ? "situation" : "situations"}
          <span className="more">; what does the same is folded together</span>
        </p>
        {isStale && <p className="as-of">As of before your last edit.</p>}
        <Legend />
        {more > 0 && (
          <button type="button" className="word" onClick={() => showAll(!showsAll)}>
            {showsAll ? `First ${MOST_COLUMNS} only` : `Show all, ${more} more`}
          </button>
        )}
        {fill !== undefined && (
          <button type="button" className="plain" onClick={fill.turn}>
            {fill.isFilled ? "Back to the drawing" : "Fill the page"}
          </button>
        )}
      </header>
      <Grid table={table} groups={groups} wishes={wishes} report={report} picked={cell} pick={pick} />
      <CellFoot
        table={table}
        wishes={wishes}
        report={report}
        picked={cell}
        openFinding={openFinding}
        show={
          isStale
            ? undefined
            : ({ row, at }) =>
                show({
                  table,
                  at,
                  ring: table.situations[at]?.against.some((a) => a.row === row) === true ? row : undefined,
                  volts: answer.volts[at] ?? {},
                })
        }
      />
    </div>
  );
}
