import type { Loom, PartText } from "../loom/schema.ts";
import { type FamilyId, families } from "../parts/families.ts";
import type { ModuleDefinitionText } from "../parts/module-definition.ts";
import { shippedDefinitions } from "../parts/shipped/shipped.ts";
import { isFree, nextDesignation } from "./designation.ts";
import { addPart } from "./parts.ts";

interface NewPart {
  readonly loom: Loom;
  readonly id: string;
}

/**
 * Puts a new part into the loom, with the next free designation. What the file leaves open is the catalogue's, and the
 * catalogue has a value for everything that is needed, so nothing is made up here. `definition` names one of the loom,
 * or a shipped one (with @): then the loom gets a copy of its own. Only modules have one, and they must.
 */
export function newPart(loom: Loom, family: FamilyId, kind?: string, definition?: string): NewPart {
  const { kinds } = families[family];
  if (kind !== undefined && !kinds.includes(kind)) throw new Error(`newPart: ${kind} is no kind of ${family}`);
  if ((family === "module") !== (definition !== undefined))
    throw new Error(`newPart: ${family} with definition ${definition}`);
  const id = nextDesignation(loom, family, kind);
  const part: PartText = { id, is: family, ...(kind === undefined || kinds.length === 1 ? {} : { kind }) };
  if (definition === undefined) return { loom: addPart(loom, part), id };
  const own = ownDefinition(loom, definition);
  const definitions = loom.definitions.includes(own) ? loom.definitions : [...loom.definitions, own];
  return { loom: addPart({ ...loom, definitions }, { ...part, of: own.id }), id };
}

/** The definition of the loom by that name; of a shipped one a copy, under its name without the @ or the next that is free. */
function ownDefinition(loom: Loom, name: string): ModuleDefinitionText {
  const own = loom.definitions.find((d) => d.id === name);
  if (own !== undefined) return own;
  const shipped = shippedDefinitions.find((d) => d.id === name);
  if (shipped === undefined) throw new Error(`newPart: no definition ${name}`);
  const plain = name.slice(1);
  for (let n = 1; ; n++) {
    const id = n === 1 ? plain : `${plain}-${n}`;
    if (isFree(loom, id)) return { ...shipped, id };
  }
}
