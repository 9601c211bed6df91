import { type Loom, loomSchema } from "../loom/schema.ts";

// A loom as a flat set of named entries: one for each item of a list, each place and route of the drawing, and each of the
// few single values. Changes, undo, comparing and merging all work on these.

const LISTS = ["definitions", "parts", "wires", "world", "intents", "meant", "accepted", "remarks"] as const;
const SINGLE = ["format", "title", "note", "system"] as const;
const DRAWN = ["places", "routes"] as const;
const DRAWN_ONCE = ["sheets", "zones"] as const;

export type Entries = ReadonlyMap<string, unknown>;

const idOf = (item: Readonly<Record<string, unknown>>): string => String(item.id ?? item.finding);

/** `parts/K3`, `drawing/places/K3`, `title`. */
export function entriesOf(loom: Loom): Entries {
  const entries = new Map<string, unknown>();
  for (const key of SINGLE) if (loom[key] !== undefined) entries.set(key, loom[key]);
  for (const list of LISTS) for (const item of loom[list]) entries.set(`${list}/${idOf(item)}`, item);
  for (const what of DRAWN_ONCE)
    if (loom.drawing?.[what] !== undefined) entries.set(`drawing/${what}`, loom.drawing[what]);
  for (const what of DRAWN)
    for (const [id, value] of Object.entries(loom.drawing?.[what] ?? {})) entries.set(`drawing/${what}/${id}`, value);
  return entries;
}

/** The loom of a set of entries. Lists keep the order of the entries. */
export function loomOf(entries: Entries): Loom {
  const lists = Object.fromEntries(LISTS.map((list) => [list, under(entries, `${list}/`).map(([, v]) => v)]));
  const single = Object.fromEntries(SINGLE.filter((k) => entries.has(k)).map((k) => [k, entries.get(k)]));
  const drawn = DRAWN.map((what) => [what, Object.fromEntries(under(entries, `drawing/${what}/`))] as const);
  const drawing = {
    ...Object.fromEntries(
      DRAWN_ONCE.filter((what) => entries.has(`drawing/${what}`)).map((what) => [what, entries.get(`drawing/${what}`)]),
    ),
    ...Object.fromEntries(drawn.filter(([, of]) => Object.keys(of).length > 0)),
  };
  return loomSchema.parse({ ...single, ...lists, ...(Object.keys(drawing).length === 0 ? {} : { drawing }) });
}

const under = (entries: Entries, prefix: string): readonly (readonly [string, unknown])[] =>
  [...entries].filter(([k]) => k.startsWith(prefix)).map(([k, v]) => [k.slice(prefix.length), v]);

/** Same value, whatever the order of its keys; only what a switch joins is in the order of its positions. */
export const same = (a: unknown, b: unknown): boolean => a === b || canonical(a) === canonical(b);

function canonical(value: unknown, key = ""): string {
  if (Array.isArray(value)) return `[${value.map((v) => canonical(v)).join()}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value) ?? "undefined";
  const entries = Object.entries(value).filter(([, v]) => v !== undefined);
  const ordered = key === "joins" ? entries : entries.toSorted(([p], [q]) => (p < q ? -1 : 1));
  return `{${ordered.map(([k, v]) => `${JSON.stringify(k)}:${canonical(v, k)}`).join()}}`;
}
