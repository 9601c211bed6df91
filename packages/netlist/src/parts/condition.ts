import { z } from "zod";
import { quantityValue } from "../units/quantity.ts";
import { quantityText } from "./field.ts";

// The logic of a module as data: a list of alternatives, each a set of things that must all be true. No expressions.

export type EnginePhase = "stopped" | "cranking" | "running" | "spinning down";

/** One thing that is true or false. */
export type Atom =
  | { readonly kind: "awake"; readonly is: boolean }
  | { readonly kind: "pin"; readonly pin: string; readonly active: boolean }
  | { readonly kind: "engine"; readonly phases: readonly EnginePhase[] }
  | { readonly kind: "since-wake"; readonly seconds: number }
  | { readonly kind: "input"; readonly input: string; readonly value: string }
  | { readonly kind: "state"; readonly state: string; readonly is: boolean }
  | {
      readonly kind: "volts";
      readonly from: string;
      readonly to: string;
      readonly above: number;
      readonly below: number;
    };

/** Atoms that must all hold; `not` turns the whole set round. */
export type Term =
  | { readonly kind: "all"; readonly atoms: readonly Atom[] }
  | { readonly kind: "not"; readonly atoms: readonly Atom[] };

/** Any of these, each all of its terms. An empty list is never true. */
export type Condition = readonly (readonly Term[])[];

const name = z.string().min(1).max(60);
const atoms = {
  awake: z.boolean().optional(),
  pin: z.record(name, z.enum(["active", "idle"])).optional(),
  engine: z
    .array(z.enum(["stopped", "cranking", "running", "spinning down"]))
    .min(1)
    .optional(),
  since: z.literal("wake").optional(),
  for: quantityText("seconds").optional(),
  input: z.record(name, name).optional(),
  state: z.record(name, z.boolean()).optional(),
  volts: z
    .strictObject({
      between: z.tuple([name, name]),
      above: quantityText("volts"),
      below: quantityText("volts").optional(),
    })
    .optional(),
};
const atomSet = z.strictObject(atoms);
const alternative = z.strictObject({
  ...atoms,
  not: z.union([atomSet, z.array(atomSet).max(20)]).optional(),
});
export const conditionSchema = z.array(alternative).max(30);

type AtomSet = z.infer<typeof atomSet>;

function readAtoms(set: AtomSet): Atom[] {
  const list: Atom[] = [];
  if (set.awake !== undefined) list.push({ kind: "awake", is: set.awake });
  for (const [pin, how] of Object.entries(set.pin ?? {})) list.push({ kind: "pin", pin, active: how === "active" });
  if (set.engine) list.push({ kind: "engine", phases: set.engine });
  if (set.since) list.push({ kind: "since-wake", seconds: set.for ? quantityValue(set.for, "seconds") : 0 });
  for (const [input, value] of Object.entries(set.input ?? {})) list.push({ kind: "input", input, value });
  for (const [state, is] of Object.entries(set.state ?? {})) list.push({ kind: "state", state, is });
  if (set.volts) {
    const above = quantityValue(set.volts.above, "volts");
    const below = set.volts.below === undefined ? above : quantityValue(set.volts.below, "volts");
    list.push({ kind: "volts", from: set.volts.between[0], to: set.volts.between[1], above, below });
  }
  return list;
}

/** A condition of the file in memory. */
export function readCondition(raw: z.infer<typeof conditionSchema>): Condition {
  return raw.map((one) => {
    const { not, ...rest } = one;
    const terms: Term[] = [{ kind: "all", atoms: readAtoms(rest) }];
    for (const set of not === undefined ? [] : Array.isArray(not) ? not : [not])
      terms.push({ kind: "not", atoms: readAtoms(set) });
    return terms;
  });
}

/** Every atom of a condition, for checks of what it names. */
export const atomsOf = (condition: Condition): readonly Atom[] => condition.flat().flatMap((term) => term.atoms);
