import { families } from "../parts/families.ts";
import type { Terminal } from "../parts/family.ts";
import type { Field } from "../parts/field.ts";
import { moduleTerminals } from "../parts/module.ts";
import type { PartText } from "./schema.ts";

/** Values of a part in SI, and the fields that the file leaves to the catalogue. */
export function valuesOf(
  part: PartText,
  systemVolts: number,
): { values: Readonly<Record<string, unknown>>; assumed: readonly string[] } {
  const fields: Readonly<Record<string, Field<unknown>>> = families[part.is].fields;
  const values: Record<string, unknown> = {};
  const assumed: string[] = [];
  for (const [key, field] of Object.entries(fields)) {
    const raw = part[key] ?? undefined;
    values[key] = field.read(raw, { systemVolts });
    if (raw === undefined && values[key] !== undefined) assumed.push(key);
  }
  return { values, assumed };
}

type Terminals = (values: Readonly<Record<string, unknown>>, kind: string) => readonly Terminal[];

/** Terminals of a part of the file; of a module, the pins of its definition. */
export function terminalsOf(
  part: PartText,
  values: Readonly<Record<string, unknown>>,
  definition: Parameters<typeof moduleTerminals>[0] | undefined,
): readonly Terminal[] {
  if (definition !== undefined) return moduleTerminals(definition);
  const family = families[part.is];
  return (family.terminals as Terminals)(values, part.kind ?? family.kinds[0]);
}
