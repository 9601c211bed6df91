import type { Field, ValuesOf } from "./field.ts";

/** What happens when a load of this family is on unasked. */
export type Harm = "crank" | "move" | "fuel" | "heat" | "none";

/** One terminal of a part. `needs` says what it must be joined to for the part to work as drawn. */
export interface Terminal {
  readonly name: string;
  readonly says: string;
  readonly needs: "wire" | "wire or case" | "may be open";
}

type Fields = Readonly<Record<string, Field<unknown>>>;

/**
 * What a part can be, without pixels and without physics. The circuit of a family stands in the analyzer under the
 * same file name, its strokes in the drawing.
 */
export interface Family<F extends Fields> {
  readonly title: string;
  readonly summary: string;
  /** Variants, the first is the default. */
  readonly kinds: readonly [string, ...string[]];
  /** First letters of its designation, after IEC 81346-2 as the examples use them [from memory]. */
  readonly letters: (kind: string) => string;
  /** What people call it, to find it by [common practice, no source]. */
  readonly words: readonly string[];
  readonly fields: F;
  readonly harm: (kind: string) => Harm;
  readonly terminals: (values: ValuesOf<F>, kind: string) => readonly Terminal[];
}

/** Declares a family; keeps the types of its fields. */
export function defineFamily<const F extends Fields>(family: Family<F>): Family<F> {
  return family;
}

export const mustWire = (name: string, says: string): Terminal => ({ name, says, needs: "wire" });
export const mayBeOpen = (name: string, says: string): Terminal => ({ name, says, needs: "may be open" });
export const wireOrCase = (name: string, says: string): Terminal => ({ name, says, needs: "wire or case" });
