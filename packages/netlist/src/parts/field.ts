import { z } from "zod";
import { type Dimension, parseQuantity, quantityValue } from "../units/quantity.ts";
import type { TextForm } from "./text-form.ts";

/** Least and most a value can be, in the unit of its dimension. */
export interface Span {
  readonly least: number;
  readonly most: number;
}

/** What a field may need to know besides its own text. */
export interface ReadContext {
  readonly systemVolts: number;
}

/**
 * How a person gives a value: as one quantity, as the least and most of one, as a word out of a list, as one line in the
 * form given, or as one of the few shapes that have a small form of their own.
 */
export type FieldForm =
  | { readonly kind: "quantity"; readonly unit: Dimension }
  | { readonly kind: "span"; readonly unit: Dimension }
  | { readonly kind: "choice"; readonly words: readonly string[]; readonly standard: string }
  | { readonly kind: "line"; readonly text: TextForm }
  | { readonly kind: "suppression" }
  /** The positions of a switch in their order, each with the pairs that it joins: two values at once. */
  | { readonly kind: "positions" }
  | { readonly kind: "with positions" };

/**
 * One value of a family: how it stands in the file, how it reads in SI, and where its default comes from.
 * `standard` says the default in words; `source` is a published source or one of the marks of the house:
 * "common practice, no source", "from memory", "given by the owner" (no default).
 */
export interface Field<T> {
  readonly schema: z.ZodType;
  readonly read: (raw: unknown, context: ReadContext) => T;
  readonly says: string;
  readonly unit: Dimension | undefined;
  readonly form: FieldForm;
  readonly standard: string;
  readonly source: string;
}

export const COMMON_PRACTICE = "common practice, no source";
export const FROM_MEMORY = "from memory";
const OWNER = "given by the owner";

interface About {
  readonly says: string;
  readonly standard?: string;
  readonly source?: string;
}

const about = (a: About, unit: Dimension | undefined, form: FieldForm) => ({
  says: a.says,
  unit,
  form,
  standard: a.standard ?? "none",
  source: a.source ?? OWNER,
});

/** Schema of a quantity string, such as "7 ms". The message says what was expected. */
export const quantityText = (dimension: Dimension, sign: "positive" | "any" = "positive") =>
  z
    .string()
    .max(40)
    .superRefine((text, context) => {
      const parsed = parseQuantity(text, dimension);
      if (!parsed.ok) context.addIssue({ code: "custom", message: parsed.expected });
      else if (sign === "positive" && parsed.value < 0)
        context.addIssue({ code: "custom", message: `a value of 0 or more` });
    });

/** A default that may hang on the system voltage. */
type Default<T> = T | ((context: ReadContext) => T);
const settle = <T>(standard: Default<T>, context: ReadContext): T =>
  typeof standard === "function" ? (standard as (c: ReadContext) => T)(context) : standard;

/** One quantity with a default. */
export function quantity<T extends number | undefined>(
  dimension: Dimension,
  standard: Default<T>,
  a: About,
): Field<number | T> {
  return {
    ...about(a, dimension, { kind: "quantity", unit: dimension }),
    schema: quantityText(dimension).nullable().optional(),
    read: (raw, context) => (typeof raw === "string" ? quantityValue(raw, dimension) : settle(standard, context)),
  };
}

/** A quantity known between two bounds. In the file: one value, or `[least, most]` with `null` for "not given". */
export function span(dimension: Dimension, standard: Default<Span>, a: About): Field<Span> {
  const one = quantityText(dimension);
  return {
    ...about(a, dimension, { kind: "span", unit: dimension }),
    schema: z
      .union([one, z.tuple([one.nullable(), one.nullable()])])
      .nullable()
      .optional(),
    read: (raw, context) => {
      const given = settle(standard, context);
      if (typeof raw === "string") {
        const value = quantityValue(raw, dimension);
        return { least: value, most: value };
      }
      if (!Array.isArray(raw)) return given;
      const bound = (text: unknown) => (typeof text === "string" ? quantityValue(text, dimension) : undefined);
      return meet(bound(raw[0]), bound(raw[1]), given);
    },
  };
}

/** Given one bound of a pair, the other keeps its default unless they cross; then it moves to meet it. */
function meet(least: number | undefined, most: number | undefined, standard: Span): Span {
  if (least !== undefined && most !== undefined) return { least: Math.min(least, most), most: Math.max(least, most) };
  if (least !== undefined) return { least, most: Math.max(least, standard.most) };
  if (most !== undefined) return { least: Math.min(most, standard.least), most };
  return standard;
}

/** One word out of a list. */
export function choice<const C extends string>(words: readonly [C, ...C[]], standard: C, a: About): Field<C> {
  return {
    ...about({ standard, ...a }, undefined, { kind: "choice", words, standard }),
    schema: z.enum(words as readonly [string, ...string[]]).optional(),
    read: (raw) => (raw === undefined ? standard : (raw as C)),
  };
}

/** Any shape with its own schema. `read` gets what the schema accepted, or undefined. */
export function shaped<R, T>(
  schema: z.ZodType<R>,
  read: (raw: R | undefined, context: ReadContext) => T,
  a: About & { readonly form: TextForm | FieldForm },
): Field<T> {
  const form: FieldForm = "read" in a.form ? { kind: "line", text: a.form } : a.form;
  return {
    ...about(a, undefined, form),
    schema: schema.optional(),
    read: (raw, context) => read(raw as R | undefined, context),
  };
}

/** The values of a family in SI, by its fields. */
export type ValuesOf<F extends Readonly<Record<string, Field<unknown>>>> = {
  readonly [K in keyof F]: F[K] extends Field<infer T> ? T : never;
};
