import { z } from "zod";
import { type FamilyId, families, familyIds } from "../parts/families.ts";
import { quantityText } from "../parts/field.ts";
import { moduleDefinitionSchema } from "../parts/module-definition.ts";
import { COLOUR_NAMES } from "../reference/colours.ts";

// The file `name.loom.json`, format 1. Quantities stay the text that the person wrote; `resolve` gives SI.

export const FORMAT = "loomproof/1";

/** Sizes past which a file is refused at once. `members` is for any one list or group, `values` for the whole file. */
export const LIMITS = {
  bytes: 20_000_000,
  definitions: 500,
  parts: 20_000,
  wires: 60_000,
  world: 500,
  intents: 2000,
  meant: 500,
  accepted: 5000,
  remarks: 5000,
  depth: 12,
  members: 100_000,
  values: 2_000_000,
  text: 4000,
  /** Furthest that anything is drawn from the corner of its sheet. */
  sheetUnits: 100_000,
} as const;

const id = z.string().regex(/^[A-Za-z0-9_]{1,40}$/, { error: "a designation of letters, digits and _, at most 40" });
const note = z.string().max(LIMITS.text).optional();
const terminal = z.string().min(1).max(120);
const name = z.string().min(1).max(60);

const harm = z.enum(["crank", "move", "fuel", "heat", "none"]);

const common = {
  id,
  label: z.string().max(120).optional(),
  note,
  harm: harm.optional(),
  case: terminal.optional(),
};

function partSchema(family: FamilyId): z.ZodObject {
  const { kinds, fields } = families[family];
  const values = Object.fromEntries(Object.entries(fields).map(([key, field]) => [key, field.schema]));
  return z.strictObject({
    id: common.id,
    is: z.literal(family),
    kind: z.enum(kinds as readonly [string, ...string[]]).optional(),
    ...(family === "module" ? { of: name } : {}),
    label: common.label,
    ...values,
    harm: common.harm,
    case: common.case,
    note: common.note,
  });
}

/** One schema for each family, in the key order of the file. */
export const partSchemas = Object.fromEntries(familyIds.map((f) => [f, partSchema(f)])) as {
  readonly [K in FamilyId]: z.ZodObject;
};

/** A part as the file gives it: the common keys are typed, those of its family are read through its fields. */
export interface PartText {
  readonly id: string;
  readonly is: FamilyId;
  readonly kind?: string;
  readonly of?: string;
  readonly label?: string;
  readonly note?: string;
  readonly harm?: z.infer<typeof harm>;
  readonly case?: string;
  readonly [key: string]: unknown;
}

const part = z.discriminatedUnion(
  "is",
  familyIds.map((f) => partSchemas[f]) as unknown as [z.ZodObject<{ is: z.ZodLiteral<FamilyId> }>],
) as unknown as z.ZodType<PartText>;

const colour = z
  .string()
  .refine((c) => c.split("/").length <= 2 && c.split("/").every((x) => Object.hasOwn(COLOUR_NAMES, x)), {
    error: `IEC 60757 codes, base or base/tracer, such as "BK/YE"`,
  });

const wire = z.strictObject({
  id,
  from: terminal,
  to: terminal,
  size: quantityText("areaMm2").optional(),
  length: quantityText("metres").nullable().optional(),
  ohms: quantityText("ohms").optional(),
  colour: colour.optional(),
  cover: z.enum(["sleeved", "bare", "screened", "twisted"]).optional(),
  insulation: z.string().max(60).optional(),
  rated: quantityText("amps").optional(),
  unfusedBecause: z.string().max(300).optional(),
  note,
});

const worldInput = z.strictObject({
  id: name,
  values: z.array(name).min(2).max(20),
  usual: name,
  moves: z.array(name).max(40).optional(),
  label: z.string().max(120).optional(),
  note,
});
const worldNever = z.strictObject({ id: name, never: z.record(name, name), note });

const situation = z.record(name, z.union([name, z.array(name)]));
const situations = z.array(situation).max(200).optional();
/** What the owner wants. Which keys go together `loom/intents.ts` says; what is left half said nobody can check. */
const intent = z.strictObject({
  id: name,
  load: name.optional(),
  battery: name.optional(),
  onOnlyWhen: situations,
  onWhen: situations,
  offWithin: quantityText("seconds").optional(),
  after: situation.optional(),
  below: quantityText("amps").optional(),
  when: situations,
  neverWith: z.array(name).max(200).optional(),
  note,
});
const meant = z.strictObject({
  id: name,
  "seal-in": name,
  through: z.tuple([name, name]),
  set: z.array(z.record(name, name)).optional(),
  clear: z.array(z.record(name, name)).optional(),
  note,
});
const accepted = z.strictObject({
  finding: z.string().min(1).max(300),
  reason: z.string().max(LIMITS.text),
  by: z.string().max(80).optional(),
  on: z.string().max(40).optional(),
  evidence: z.string().max(80).optional(),
  note,
});
const remark = z.strictObject({
  id: name,
  on: z.record(name, z.string().max(300)),
  by: z.string().max(80),
  at: z.string().max(40).optional(),
  text: z.string().max(LIMITS.text),
  state: z.enum(["open", "done"]).optional(),
});
const unit = z.number().min(-LIMITS.sheetUnits).max(LIMITS.sheetUnits);
const point = z.tuple([unit, unit]);
const along = z.record(name, unit);
/** Where a box of the drawing stands, in units of 10 px; what is not given is as the catalogue draws it. */
const place = z.strictObject({
  at: point,
  /** Terminals from the feed end to the ground end: they decide what faces up. Those of one list stand level. */
  order: z
    .array(z.union([name, z.array(name).max(200)]))
    .max(200)
    .optional(),
  mirrored: z.literal(true).optional(),
  /** Of boxes whose pins can be moved: the pins on each edge, from the left. */
  above: along.optional(),
  below: along.optional(),
  width: unit.optional(),
  height: unit.optional(),
  /** Of a splice, which is a level bar: how long it is, and where each wire meets it. */
  length: unit.optional(),
  dots: along.optional(),
});
const zone = z.strictObject({
  name: z.string().max(120),
  room: z.tuple([unit, unit, unit, unit]),
  parts: z.array(name).max(LIMITS.parts),
});
const drawing = z.strictObject({
  sheets: z
    .array(
      z.strictObject({ id: name, size: z.enum(["A4", "A3", "A2"]).optional(), title: z.string().max(200).optional() }),
    )
    .max(200)
    .optional(),
  zones: z.array(zone).max(200).optional(),
  places: z.record(name, place).optional(),
  routes: z.record(name, z.array(point).max(400)).optional(),
});

export const loomSchema = z.strictObject({
  format: z.literal(FORMAT),
  title: z.string().max(200).optional(),
  note,
  system: z.strictObject({
    volts: z.union([z.literal(12), z.literal(24)]).default(12),
    supply: z.enum(["ranges", "fixed"]).default("ranges"),
    reference: terminal.optional(),
    lengthUnknown: quantityText("metres").optional(),
    note,
  }),
  definitions: z.array(moduleDefinitionSchema).max(LIMITS.definitions).default([]),
  parts: z.array(part).max(LIMITS.parts),
  wires: z.array(wire).max(LIMITS.wires),
  world: z
    .array(z.union([worldInput, worldNever]))
    .max(LIMITS.world)
    .default([]),
  intents: z.array(intent).max(LIMITS.intents).default([]),
  meant: z.array(meant).max(LIMITS.meant).default([]),
  accepted: z.array(accepted).max(LIMITS.accepted).default([]),
  remarks: z.array(remark).max(LIMITS.remarks).default([]),
  drawing: drawing.optional(),
});

/** A loom: the file in memory, quantities still as text. Immutable; every edit makes a new one. */
export type Loom = Readonly<z.infer<typeof loomSchema>>;
export type WireText = z.infer<typeof wire>;
/** An intent as the file has it. */
export type IntentText = z.infer<typeof intent>;
/** The picture of a loom: places, zones and routes. */
export type DrawingText = z.infer<typeof drawing>;
export type PlaceText = z.infer<typeof place>;
