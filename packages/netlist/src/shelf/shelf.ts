import type { FamilyId } from "../parts/families.ts";
import { SHELF } from "./titles.ts";

/** One thing to take from the shelf: a kind of a family, or a module after a shipped definition. */
export interface ShelfItem {
  readonly id: string;
  readonly family: FamilyId;
  readonly kind: string | undefined;
  /** A shipped definition, for modules. */
  readonly definition?: string;
  readonly title: string;
  /** What it does, in a few words. */
  readonly says: string;
}

export interface ShelfGroup {
  readonly title: string;
  readonly items: readonly ShelfItem[];
}

/** Everything there is to take, in the order in which current flows. */
export const shelf: readonly ShelfGroup[] = SHELF.map(([title, rows]) => ({
  title,
  items: rows.map(([family, kind, name, says]) =>
    family === "module"
      ? { id: `module/${kind}`, family, kind: undefined, definition: kind, title: name, says }
      : { id: `${family}/${kind}`, family, kind, title: name, says },
  ),
}));
