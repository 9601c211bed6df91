import type { Loom } from "../loom/schema.ts";
import { type FamilyId, families } from "../parts/families.ts";

// Parts, wires, world inputs and definitions share one set of names.

/** Whether nothing in the loom has this name yet. */
export const isFree = (loom: Loom, name: string): boolean =>
  ![loom.parts, loom.wires, loom.world, loom.definitions].some((list) => list.some((item) => item.id === name));

/** The next free designation of a family: K6 after K5. A number that was given up is not given again: it may be on paper. */
export const nextDesignation = (loom: Loom, family: FamilyId, kind?: string): string =>
  next(loom, families[family].letters(kind ?? families[family].kinds[0]));

/** The next free number of a wire: W47 after W46. */
export const nextWireNumber = (loom: Loom): string => next(loom, "W");

function next(loom: Loom, letters: string): string {
  // Longer numbers are no count of anything; the next of them could not be told apart from it.
  const numbered = new RegExp(`^${letters}(\\d{1,9})$`);
  let greatest = 0;
  for (const list of [loom.parts, loom.wires, loom.world, loom.definitions])
    for (const { id } of list) greatest = Math.max(greatest, Number(numbered.exec(id)?.[1] ?? 0));
  return `${letters}${greatest + 1}`;
}
