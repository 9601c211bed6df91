import type { Loom } from "../loom/schema.ts";
import { readTerminal } from "../loom/terminal-ref.ts";
import { type Change, change, type Difference } from "./change.ts";
import { entriesOf, loomOf, same } from "./entries.ts";

/** Two people changed the same thing differently. The merged loom keeps mine until somebody decides. */
export interface Conflict {
  readonly entry: string;
  /** The field, where both sides changed the same item. */
  readonly field?: string;
  readonly mine: unknown;
  readonly theirs: unknown;
  readonly why: "both changed it" | "one changed it, the other removed it" | "a wire goes to a part that was removed";
}

export interface Merged {
  readonly loom: Loom;
  readonly conflicts: readonly Conflict[];
}

/** Three-way: both changes against one base, by item and field. Places and routes of the drawing: theirs win. */
export function merge(base: Loom, mine: Loom, theirs: Loom): Merged {
  const [ours, other] = [change(base, mine), change(base, theirs)];
  const entries = new Map(entriesOf(mine));
  const conflicts: Conflict[] = [];
  for (const [entry, their] of Object.entries(other)) {
    const my = ours[entry];
    const { value, clashes } =
      my === undefined || entry.startsWith("drawing/") ? { value: their.after, clashes: [] } : both(entry, my, their);
    conflicts.push(...clashes);
    if (value === undefined) entries.delete(entry);
    else entries.set(entry, value);
  }
  conflicts.push(...restoreParts(entries, base, ours, other));
  return { loom: loomOf(entries), conflicts };
}

type Item = Readonly<Record<string, unknown>>;
const isItem = (v: unknown): v is Item => typeof v === "object" && v !== null && !Array.isArray(v);

function both(
  entry: string,
  my: Difference,
  their: Difference,
): { readonly value: unknown; readonly clashes: readonly Conflict[] } {
  const [mine, theirs] = [my.after, their.after];
  if (same(mine, theirs)) return { value: mine, clashes: [] };
  const gone = mine === undefined || theirs === undefined;
  if (gone || !isItem(mine) || !isItem(theirs) || !isItem(my.before)) {
    const why = gone ? "one changed it, the other removed it" : "both changed it";
    // What one side removed and the other changed is kept as changed: nothing is dropped unasked.
    return { value: mine ?? theirs, clashes: [{ entry, mine, theirs, why }] };
  }
  const value: Record<string, unknown> = {};
  const clashes: Conflict[] = [];
  for (const field of new Set([...Object.keys(mine), ...Object.keys(theirs), ...Object.keys(my.before)])) {
    const [b, m, t] = [my.before[field], mine[field], theirs[field]];
    const isMine = !same(b, m);
    if (isMine && !same(b, t) && !same(m, t))
      clashes.push({ entry, field, mine: m, theirs: t, why: "both changed it" });
    const kept = isMine ? m : t;
    if (kept !== undefined) value[field] = kept;
  }
  return { value, clashes };
}

/** A wire never loses its part in a merge: the part comes back, and the clash is told. */
function restoreParts(entries: Map<string, unknown>, base: Loom, ours: Change, other: Change): readonly Conflict[] {
  const conflicts: Conflict[] = [];
  for (const [entry, wire] of [...entries]) {
    if (!entry.startsWith("wires/") || !isItem(wire)) continue;
    for (const end of [wire.from, wire.to]) {
      const { part } = readTerminal(String(end));
      const key = `parts/${part}`;
      const removed = [ours[key], other[key]].find((d) => d !== undefined && d.after === undefined);
      if (entries.has(key) || removed === undefined) continue;
      entries.set(key, removed.before ?? base.parts.find((p) => p.id === part));
      conflicts.push({ entry, mine: wire, theirs: undefined, why: "a wire goes to a part that was removed" });
    }
  }
  return conflicts;
}
