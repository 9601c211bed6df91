import type { Report, Behaviour as Table } from "@loomproof/analyzer";
import { type Loom, type ResolvedLoom, wantOnlyWhen } from "@loomproof/netlist";
import { useMemo, useState } from "react";
import type { Edit } from "../../session/editing.ts";
import type { Answered } from "../../session/use-answer.ts";
import { Waiting } from "../waiting.tsx";
import { CellFoot, type ShownCell } from "./cell-foot.tsx";
import { groupsOf, keyOf } from "./columns.ts";
import { Grid } from "./grid.tsx";
import { Legend } from "./legend.tsx";
import type { Situation } from "./situation.ts";
import type { Wishing } from "./wish-form.tsx";
import { wishesOf } from "./words.ts";

interface Props {
  readonly seen: Answered<"behaviour"> & { readonly stop: () => void; readonly again: () => void };
  /** The loom that the table is of, and what was found in it. */
  readonly loom: Loom | undefined;
  readonly resolved: ResolvedLoom;
  readonly report: Report | undefined;
  /** The loom was edited since. */
  readonly isStale: boolean;
  /** The loom as it is now, and how it is edited; undefined where it is not. */
  readonly editing: { readonly loom: Loom; readonly edit: Edit } | undefined;
  readonly show: (situation: Situation) => void;
  readonly openFinding: (id: string) => void;
  /** Fills the page, or goes back; undefined where the tray does that itself. */
  readonly fill: { readonly isFilled: boolean; readonly turn: () => void } | undefined;
}

const MOST_COLUMNS = 16;

/** What is on in which situation, and whether it is wanted so. */
export function Behaviour({ seen, loom, resolved, report, isStale, editing, show, openFinding, fill }: Props) {
  const { answer } = seen;
  const [showsAll, showAll] = useState(false);
  const [picked, pick] = useState<ShownCell>();
  const table = answer?.table;
  const most = showsAll ? Number.POSITIVE_INFINITY : MOST_COLUMNS;
  const groups = useMemo(() => table && groupsOf(resolved, table, most), [resolved, table, most]);
  const wishes = useMemo(() => table && loom && wishesOf(loom, table), [table, loom]);
  const wishing = useMemo(() => table && editing && wishingOf(resolved, table, editing), [resolved, table, editing]);
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
      <Grid table={table} groups={groups} wishes={wishes} report={report} picked={cell} pick={pick} wishing={wishing} />
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

/** In a loom with a key: a load may be wanted on only in some of its positions. */
function wishingOf(
  resolved: ResolvedLoom,
  table: Table,
  { loom, edit }: NonNullable<Props["editing"]>,
): Wishing | undefined {
  const key = keyOf(resolved, table.situations[0]);
  if (key === undefined) return undefined;
  return {
    key,
    wanted: new Set(loom.intents.flatMap((i) => i.load ?? [])),
    want: (load, positions) =>
      edit(`${load} wanted only with ${key.name} ${positions.join(" or ")}`, (l) =>
        wantOnlyWhen(l, load, key.id, positions),
      ),
  };
}
