import { z } from "zod";

// The published schema of `prove --json`. A test checks every example's report against it.

const text = z.string();
const severity = z.enum(["danger", "fault", "caution", "note"]);
const inputs = z.record(z.string(), z.string());
const cut = z.strictObject({ wires: z.array(text), stops: z.array(text) });

const finding = z.strictObject({
  id: text,
  rule: text,
  severity,
  strength: z.enum(["certain", "possible"]),
  runs: z.array(text),
  unknown: text.optional(),
  where: z.array(text),
  title: text,
  text,
  remedy: text,
  numbers: z.array(z.strictObject({ name: text, value: z.number(), unit: text, limit: z.number().optional() })),
  states: z.array(z.strictObject({ inputs, in: z.array(text), on: z.array(text) })),
  moves: z.array(
    z.strictObject({
      set: inputs,
      then: z.array(text),
      straightOn: z.strictObject({ input: text, position: text, least: z.number(), most: z.number() }).optional(),
    }),
  ),
  hold: z
    .strictObject({
      ring: z.array(text),
      followers: z.array(text),
      kind: z.enum(["standing", "caught", "leak"]),
      margin: z.strictObject({ says: text, by: text, relay: text, least: z.number(), most: z.number() }).optional(),
      coil: z.array(z.strictObject({ id: text, volts: z.number(), releaseLeast: z.number(), releaseMost: z.number() })),
    })
    .optional(),
  cuts: z.strictObject({ harmless: z.array(cut), breaking: z.array(cut), untold: z.number() }).optional(),
  path: z.array(text),
  volts: z.record(z.string(), z.number()),
  consequences: z.array(text),
  under: text.optional(),
  accepted: text.optional(),
});

const problem = z.strictObject({
  path: text,
  line: z.number(),
  column: z.number(),
  found: text,
  expected: text,
  says: text,
});

export const intentSchema = z.strictObject({
  id: text,
  says: z.array(text),
  verdict: z.enum(["met", "not met", "could not check"]),
  strength: z.enum(["certain", "possible"]).optional(),
  finding: text.optional(),
  missing: z.array(text).optional(),
});

const report = z.strictObject({
  format: z.literal("loomproof-report/1"),
  tool: text,
  file: text,
  loomHash: text,
  title: text,
  coverage: z.strictObject({
    complete: z.boolean(),
    left: z.array(text),
    counts: z.strictObject({ runs: z.number(), states: z.number(), solves: z.number() }),
  }),
  findings: z.array(finding),
  couldNotCheck: z.array(z.strictObject({ value: text, at: text, rules: z.array(text) })),
  intents: z.array(intentSchema),
  problems: z.array(problem),
});

/** One report, or an array of them in the order of the arguments when several files were given. */
export const reportSchema = z.union([report, z.array(report)]);

/** The same as JSON Schema. */
export const reportJsonSchema = (): unknown => z.toJSONSchema(reportSchema);
