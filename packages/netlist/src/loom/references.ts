import type { Trouble } from "./problem.ts";
import { definitionTroubles } from "./references/definitions.ts";
import { duplicateTroubles, type Where } from "./references/duplicates.ts";
import { knownOf } from "./references/known.ts";
import { ownerTroubles } from "./references/owner.ts";
import { partTroubles } from "./references/parts.ts";
import { wireTroubles } from "./references/wires.ts";
import { worldTroubles } from "./references/world.ts";
import type { Shape } from "./shape.ts";

/** What names something that is not there, or the same thing twice. `where` says the place of a path. */
export function referenceTroubles(shape: Shape, where: Where, most: number): readonly Trouble[] {
  const known = knownOf(shape);
  const { items, system } = shape;
  const list: Trouble[] = [];
  const checks = [
    () => duplicateTroubles(shape, where),
    () => partTroubles(known, items, system),
    () => wireTroubles(known, items),
    () => definitionTroubles(known, items),
    () => worldTroubles(known, items),
    () => ownerTroubles(known, items),
  ];
  for (const check of checks) for (const trouble of check()) if (list.push(trouble) >= most) return list;
  return list;
}
