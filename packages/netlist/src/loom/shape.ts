import { z } from "zod";
import { troublesOf } from "./issues.ts";
import type { Trouble } from "./problem.ts";
import { type Loom, loomSchema } from "./schema.ts";
import { valueAt } from "./schema-walk.ts";

/** Sections of the file that are lists of items with an id. */
export const sections = ["definitions", "parts", "wires", "world", "intents", "meant", "accepted", "remarks"] as const;
export type Section = (typeof sections)[number];
type ItemOf<S extends Section> = Loom[S][number];

/** What an item is known by in its section. */
const idOf = (item: unknown): unknown => valueAt(item, ["id"]) ?? valueAt(item, ["finding"]);

/** An item as found: `item` is undefined when the schema refuses it; its id may still be known. */
interface Found<T> {
  readonly at: number;
  readonly id: string | undefined;
  readonly item: T | undefined;
}

/** What can be trusted of a file that may have problems. */
export type FoundItems = { readonly [S in Section]: readonly Found<ItemOf<S>>[] };

export interface Shape {
  readonly root: unknown;
  readonly items: FoundItems;
  readonly system: Loom["system"] | undefined;
  readonly troubles: readonly Trouble[];
  /** The loom, when nothing is wrong with its shape. */
  readonly loom: Loom | undefined;
}

const unknowns = z.array(z.unknown());
const head = z.strictObject({
  ...loomSchema.shape,
  definitions: unknowns.default([]),
  parts: unknowns,
  wires: unknowns,
  world: unknowns.default([]),
  intents: unknowns.default([]),
  meant: unknowns.default([]),
  accepted: unknowns.default([]),
  remarks: unknowns.default([]),
});

const { shape } = loomSchema;
const elements: { readonly [S in Section]: z.ZodType<ItemOf<S>> } = {
  definitions: shape.definitions.unwrap().element,
  parts: shape.parts.element,
  wires: shape.wires.element,
  world: shape.world.unwrap().element,
  intents: shape.intents.unwrap().element,
  meant: shape.meant.unwrap().element,
  accepted: shape.accepted.unwrap().element,
  remarks: shape.remarks.unwrap().element,
};

/** Holds a value against the schema item by item, so that one bad item hides no other. Stops looking after `most`. */
export function readShape(root: unknown, most: number): Shape {
  const troubles: Trouble[] = [];
  const top = head.safeParse(root);
  if (!top.success) troubles.push(...troublesOf(root, top.error.issues, [], most));
  const read = <S extends Section>(section: S): readonly Found<ItemOf<S>>[] => {
    const list = valueAt(root, [section]);
    if (!Array.isArray(list)) return [];
    return list.map((raw: unknown, at) => {
      const id = idOf(raw);
      const known = { at, id: typeof id === "string" ? id : undefined };
      if (troubles.length >= most) return { ...known, item: undefined };
      const one = elements[section].safeParse(raw);
      if (one.success) return { ...known, item: one.data };
      troubles.push(...troublesOf(root, one.error.issues, [section, at], most - troubles.length));
      return { ...known, item: undefined };
    });
  };
  const items: FoundItems = {
    definitions: read("definitions"),
    parts: read("parts"),
    wires: read("wires"),
    world: read("world"),
    intents: read("intents"),
    meant: read("meant"),
    accepted: read("accepted"),
    remarks: read("remarks"),
  };
  const system = shape.system.safeParse(valueAt(root, ["system"]));
  const loom = top.success && troubles.length === 0 ? ({ ...top.data, ...bare(items) } as Loom) : undefined;
  return { root, items, system: system.data, troubles, loom };
}

const bare = (items: FoundItems): Record<string, unknown> =>
  Object.fromEntries(sections.map((s) => [s, items[s].map((f: Found<unknown>) => f.item)]));
