import { z } from "zod";
import { isFamilyId } from "../parts/families.ts";
import type { Path } from "./problem.ts";
import { loomSchema, partSchemas } from "./schema.ts";

// Ways through the schema beside a value: which schema a value falls under, which keys it may have and in what order.

type Schema = z.core.$ZodType;

const isGroup = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** The schema inside optional, nullable and default. */
function bare(schema: Schema): Schema {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable || schema instanceof z.ZodDefault)
    return bare(schema.unwrap());
  return schema;
}

/** Of several shapes the one that the value meets, else the group with most of its keys. */
function fitting(options: readonly Schema[], value: unknown): Schema | undefined {
  const fits = options.find((o) => z.safeParse(o, value).success);
  if (fits !== undefined || !isGroup(value)) return fits;
  const groups = options.map(bare).filter((o) => o instanceof z.ZodObject);
  const shared = (o: z.ZodObject) => Object.keys(value).filter((k) => Object.hasOwn(o.shape, k)).length;
  return groups.sort((a, b) => shared(b) - shared(a))[0];
}

function settled(schema: Schema, value: unknown): Schema | undefined {
  const inner = bare(schema);
  if (inner instanceof z.ZodDiscriminatedUnion)
    return isGroup(value) && isFamilyId(value.is) ? partSchemas[value.is] : undefined;
  return inner instanceof z.ZodUnion ? fitting(inner.options, value) : inner;
}

function child(schema: Schema | undefined, key: string | number): Schema | undefined {
  if (schema instanceof z.ZodObject) return Object.hasOwn(schema.shape, key) ? schema.shape[key] : undefined;
  if (schema instanceof z.ZodArray) return schema.element;
  if (schema instanceof z.ZodTuple) return schema.def.items[Number(key)];
  return schema instanceof z.ZodRecord ? schema.valueType : undefined;
}

/** The value at a path, or undefined. */
export function valueAt(root: unknown, path: Path): unknown {
  let value = root;
  for (const step of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Readonly<Record<string | number, unknown>>)[step];
  }
  return value;
}

/** The schema that the value at a path should meet. */
export function schemaAt(root: unknown, path: Path): Schema | undefined {
  let schema: Schema | undefined = loomSchema;
  let value = root;
  for (const step of path) {
    const within: Schema | undefined = schema === undefined ? undefined : settled(schema, value);
    schema = child(within, step);
    value = valueAt(value, [step]);
  }
  return schema;
}

/** Keys that the group at a path may have. */
export function keysAt(root: unknown, path: Path): readonly string[] {
  const schema = schemaAt(root, path);
  const group = schema === undefined ? undefined : settled(schema, valueAt(root, path));
  return group instanceof z.ZodObject ? Object.keys(group.shape) : [];
}
