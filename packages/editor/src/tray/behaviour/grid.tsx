import { type Behaviour, type BehaviourRow, type Report, SEVERITIES, type Severity } from "@loomproof/analyzer";
import { type KeyboardEvent, useRef } from "react";
import { SeverityShape } from "../../panels/severity.tsx";
import type { ShownCell } from "./cell-foot.tsx";
import type { ColumnGroup } from "./columns.ts";
import { CellMark, Dial } from "./marks.tsx";
import { severityOf } from "./severity-of.ts";
import { WishForm, type Wishing } from "./wish-form.tsx";
import { WishList } from "./wish-list.tsx";
import { type AnyCell, cellWord, doesWords, headOf, type Wish } from "./words.ts";

interface Props {
  readonly table: Behaviour;
  readonly groups: readonly ColumnGroup[];
  readonly wishes: ReadonlyMap<string | undefined, readonly Wish[]>;
  readonly report: Report | undefined;
  readonly picked: ShownCell | undefined;
  readonly pick: (cell: ShownCell) => void;
  /** How wishes are stated; undefined where nothing is edited. */
  readonly wishing: Wishing | undefined;
}

/** The table: situations under the key's positions, a body each for loads, relays, electronics and batteries. */
export function Grid({ table, groups, wishes, report, picked, pick, wishing }: Props) {
  const scroller = useRef<HTMLDivElement>(null);
  const columns = groups.flatMap((g) => g.columns);
  const hasKey = groups.some((g) => g.key !== undefined);
  const isWishing = table.intents.length > 0 || wishing !== undefined;
  const bodies = KINDS.map((kind) => table.rows.filter((r) => r.kind === kind)).filter((rows) => rows.length > 0);
  const starts = new Set(groups.map((g) => g.columns[0]?.at));
  const active = picked ?? { row: table.rows[0]?.id ?? "", at: 0 };
  const walk = (event: KeyboardEvent) => {
    const [down, right] = STEPS.get(event.key) ?? [0, 0];
    if (down === 0 && right === 0) return;
    event.preventDefault();
    const rows = bodies.flat();
    const row = rows[clamp(rows.findIndex((r) => r.id === active.row) + down, rows.length)];
    if (row === undefined) return;
    const at = clamp(active.at + right, columns.length);
    pick({ row: row.id, at });
    scroller.current?.querySelector<HTMLElement>(`[data-cell="${CSS.escape(`${row.id} ${at}`)}"]`)?.focus();
  };
  return (
    <div className="behaviour-scroll" ref={scroller}>
      <table className="behaviour-table" aria-label="What is on in which situation" onKeyDown={walk}>
        <thead>
          {hasKey && (
            <tr className="keys">
              <td className="corner" />
              {groups.map((g) => (
                <th scope="colgroup" colSpan={g.columns.length} key={`${g.key?.says} ${g.columns[0]?.at}`}>
                  {g.key !== undefined && (
                    <span>
                      <Dial at={g.key.at} of={g.key.of} /> {g.key.says}
                    </span>
                  )}
                </th>
              ))}
              {isWishing && <td className="start" />}
            </tr>
          )}
          <tr className="situations">
            <td className="corner" />
            {columns.map((c) => (
              <th
                scope="col"
                key={c.at}
                className={`${starts.has(c.at) ? "start" : ""}${picked?.at === c.at ? " picked" : ""}`}
                title={table.situations[c.at]?.title}
              >
                <span>{c.says}</span>
              </th>
            ))}
            {isWishing && (
              <th scope="col" className="wishes start">
                What you want
              </th>
            )}
          </tr>
        </thead>
        {bodies.map((rows) => (
          <tbody key={rows[0]?.kind}>
            {rows.map((row) => (
              <tr key={row.id}>
                <th scope="row" className="row-head">
                  <span className="row-name">
                    <b>{row.id}</b> {headOf(row).says}
                  </span>
                </th>
                {columns.map(({ at }) => (
                  <Cell
                    key={at}
                    row={row}
                    at={at}
                    table={table}
                    severity={against(table, report, row, at)}
                    isStart={starts.has(at)}
                    isPicked={picked?.row === row.id && picked.at === at}
                    isActive={active.row === row.id && active.at === at}
                    pick={pick}
                  />
                ))}
                {isWishing && (
                  <td className="wishes start">
                    <WishList wishes={wishes.get(row.id) ?? []} />
                    {wishing !== undefined && !wishes.has(row.id) && (row.kind === "load" || row.kind === "module") && (
                      <WishForm row={row.id} wishing={wishing} />
                    )}
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        ))}
      </table>
      {(wishes.get(undefined)?.length ?? 0) > 0 && (
        <section className="other-wishes">
          <h4>Wanted, but of no row above</h4>
          <WishList wishes={wishes.get(undefined) ?? []} />
        </section>
      )}
    </div>
  );
}

const KINDS = ["load", "relay", "module", "battery"] as const satisfies readonly BehaviourRow["kind"][];

const STEPS: ReadonlyMap<string, readonly [number, number]> = new Map([
  ["ArrowDown", [1, 0]],
  ["ArrowUp", [-1, 0]],
  ["ArrowRight", [0, 1]],
  ["ArrowLeft", [0, -1]],
]);

const clamp = (i: number, count: number): number => Math.max(0, Math.min(count - 1, i));

/** The gravest of what is not as wanted in a cell. */
function against(table: Behaviour, report: Report | undefined, row: BehaviourRow, at: number): Severity | undefined {
  return table.situations[at]?.against
    .filter((a) => a.row === row.id)
    .map((a) => severityOf(report, a.intent))
    .sort((a, b) => SEVERITIES.indexOf(b) - SEVERITIES.indexOf(a))[0];
}

interface CellProps {
  readonly row: BehaviourRow;
  readonly at: number;
  readonly table: Behaviour;
  readonly severity: Severity | undefined;
  readonly isStart: boolean;
  readonly isPicked: boolean;
  readonly isActive: boolean;
  readonly pick: (cell: ShownCell) => void;
}

function Cell({ row, at, table, severity, isStart, isPicked, isActive, pick }: CellProps) {
  const cell: AnyCell | undefined = row.cells[at];
  if (cell === undefined) return <td />;
  const classes = [
    "cell",
    isStart && "start",
    severity !== undefined && `against ${severity}`,
    cell === "held" && "held",
  ];
  const says = `${row.label}, ${table.situations[at]?.title}: ${doesWords(row, cell)}${severity === undefined ? "" : ", not as you want it"}`;
  return (
    <td className={classes.filter(Boolean).join(" ")}>
      <button
        type="button"
        data-cell={`${row.id} ${at}`}
        data-says={cellWord(cell)}
        aria-label={says}
        aria-pressed={isPicked}
        tabIndex={isActive ? 0 : -1}
        onClick={() => pick({ row: row.id, at })}
      >
        {severity !== undefined && <SeverityShape severity={severity} size={13} />}
        {typeof cell === "number" ? cellWord(cell) : <CellMark word={cell} />}
      </button>
    </td>
  );
}
