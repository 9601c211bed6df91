import type { Loom } from "@loomproof/netlist";
import { type BehaviourRow, type Unfolded, unfolded } from "./behaviour.ts";
import type { IntentSeen } from "./report.ts";

type AnyCell = BehaviourRow["cells"][number];

/** One row that does something else in one situation. Of batteries amps. */
interface CellChange {
  readonly row: string;
  readonly label: string;
  readonly kind: BehaviourRow["kind"];
  readonly before: AnyCell;
  readonly after: AnyCell;
}

/** What differs between the behaviour tables of two looms. */
export interface BehaviourChange {
  /** Situations of both in which some row differs. */
  readonly situations: readonly { readonly title: string; readonly rows: readonly CellChange[] }[];
  /** Situations that only the second can come to, or only the first could. */
  readonly added: readonly string[];
  readonly gone: readonly string[];
  /** Rows that only one of them has. */
  readonly rowsAdded: readonly string[];
  readonly rowsGone: readonly string[];
  /** Intents whose verdict differs; undefined where the other loom has no such intent. */
  readonly intents: readonly {
    readonly id: string;
    readonly says: readonly string[];
    readonly before?: IntentSeen["verdict"];
    readonly after?: IntentSeen["verdict"];
  }[];
}

/** Battery currents closer than this share of the larger one are the same: common practice, no source. */
const SAME_AMPS = 0.05;
const LEAST_AMPS = 0.001;

/**
 * What differs between two looms in what they do. Situations are the same if the same inputs stand alike and the same
 * relays are still in. One that differs in just what the key position alone differs in is not told again.
 */
export function compareBehaviour(before: Loom, after: Loom): BehaviourChange {
  const [old, now] = [unfolded(before), unfolded(after)];
  const [was, is] = [columnsOf(old), columnsOf(now)];
  const shown = new Map(
    [...old.columns, ...now.columns].flatMap((c) => (c.isShown ? [[c.situation.id, c] as const] : [])),
  );
  const told = new Set<string>();
  const situations = [...shown.keys()].flatMap((id) => {
    const rows = changesIn(old, now, was.get(id), is.get(id));
    const key = JSON.stringify(rows);
    if (rows.length === 0 || told.has(key)) return [];
    told.add(key);
    return [{ title: is.get(id)?.situation.title ?? "", rows }];
  });
  return {
    situations,
    added: lacking(now, was),
    gone: lacking(old, is),
    rowsAdded: rowsLacking(now, old),
    rowsGone: rowsLacking(old, now),
    intents: intentChanges(old.intents, now.intents),
  };
}

type Columns = ReadonlyMap<string, Unfolded["columns"][number]>;

const columnsOf = ({ columns }: Unfolded): Columns => new Map(columns.toReversed().map((c) => [c.situation.id, c]));

const lacking = ({ columns }: Unfolded, other: Columns): readonly string[] =>
  columns.flatMap((c) => (c.isShown && !other.has(c.situation.id) ? [c.situation.title] : []));

const rowsLacking = (one: Unfolded, other: Unfolded): readonly string[] =>
  one.rows.flatMap((r) => (other.rows.some((o) => o.id === r.id) ? [] : [r.label]));

function changesIn(
  old: Unfolded,
  now: Unfolded,
  was: Unfolded["columns"][number] | undefined,
  is: Unfolded["columns"][number] | undefined,
): readonly CellChange[] {
  if (was === undefined || is === undefined) return [];
  return now.rows.flatMap(({ id, label, kind }, k): readonly CellChange[] => {
    const [before, after] = [was.cells[old.rows.findIndex((r) => r.id === id)], is.cells[k]];
    if (before === undefined || after === undefined || isSame(before, after)) return [];
    return [{ row: id, label, kind, before, after }];
  });
}

function isSame(a: AnyCell, b: AnyCell): boolean {
  if (typeof a === "string" || typeof b === "string") return a === b;
  return Math.abs(a - b) <= Math.max(LEAST_AMPS, SAME_AMPS * Math.max(a, b));
}

function intentChanges(old: readonly IntentSeen[], now: readonly IntentSeen[]): BehaviourChange["intents"] {
  const ids = [...new Set([...old, ...now].map((i) => i.id))];
  return ids.flatMap((id) => {
    const [was, is] = [old.find((i) => i.id === id), now.find((i) => i.id === id)];
    if (was?.verdict === is?.verdict) return [];
    return [
      {
        id,
        says: (is ?? was)?.says ?? [],
        ...(was === undefined ? {} : { before: was.verdict }),
        ...(is === undefined ? {} : { after: is.verdict }),
      },
    ];
  });
}
