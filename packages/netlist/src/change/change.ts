import type { Loom } from "../loom/schema.ts";
import { entriesOf, loomOf, same } from "./entries.ts";

/** What differs between two looms, entry by entry: an undo step, a helper's answer, a comparison. Plain data. */
export type Change = Readonly<Record<string, Difference>>;

/** `before` is missing for what is new, `after` for what is gone. */
export interface Difference {
  readonly before?: unknown;
  readonly after?: unknown;
}

export function change(before: Loom, after: Loom): Change {
  const [was, is] = [entriesOf(before), entriesOf(after)];
  const differences: Record<string, Difference> = {};
  for (const key of new Set([...was.keys(), ...is.keys()])) {
    const [b, a] = [was.get(key), is.get(key)];
    if (!same(b, a))
      differences[key] = { ...(b === undefined ? {} : { before: b }), ...(a === undefined ? {} : { after: a }) };
  }
  return differences;
}

/** The change that undoes this one. */
export const invert = (c: Change): Change =>
  Object.fromEntries(
    Object.entries(c).map(([key, d]) => [
      key,
      { ...("after" in d ? { before: d.after } : {}), ...("before" in d ? { after: d.before } : {}) },
    ]),
  );

export type Applied =
  | { readonly ok: true; readonly loom: Loom }
  | { readonly ok: false; readonly stale: readonly string[] };

/** Makes a change. It fails, naming the entries, when the loom is not what the change was made from. */
export const apply = (loom: Loom, c: Change): Applied => applyAll(loom, [c]);

/** Makes changes one after another, as `apply` does. The loom is made once, so that thousands take no longer than a few. */
export function applyAll(loom: Loom, changes: readonly Change[]): Applied {
  const entries = new Map(entriesOf(loom));
  for (const c of changes) {
    const stale = Object.entries(c)
      .filter(([key, d]) => !same(entries.get(key), d.before))
      .map(([key]) => key);
    if (stale.length > 0) return { ok: false, stale };
    for (const [key, d] of Object.entries(c)) {
      if (d.after === undefined) entries.delete(key);
      else entries.set(key, d.after);
    }
  }
  return { ok: true, loom: loomOf(entries) };
}
