import { type FamilyId, families } from "../parts/families.ts";
import type { Field, FieldForm } from "../parts/field.ts";

/** One value of a family as a person gives it. `standard` and `source` say what holds while it is left open. */
export interface FormField {
  readonly key: string;
  readonly says: string;
  readonly standard: string;
  readonly source: string;
  readonly form: FieldForm;
}

/** The values of a family in the order of the file. */
export const fieldsOf = (family: FamilyId): readonly FormField[] =>
  Object.entries(families[family].fields as Readonly<Record<string, Field<unknown>>>).map(
    ([key, { says, standard, source, form }]) => ({ key, says, standard, source, form }),
  );
