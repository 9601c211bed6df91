import { z } from "zod";

// The published schema of `play --json`. A test checks timelines of the examples against it.

const text = z.string();
const state = z.strictObject({ inputs: z.record(text, text), in: z.array(text), on: z.array(text) });
const column = z.array(z.number());
/** 1 while it conducts or is in. */
const bits = z.array(z.union([z.literal(0), z.literal(1)]));

export const timelineSchema = z.strictObject({
  format: z.literal("loomproof-timeline/1"),
  tool: text,
  file: text,
  loomHash: text,
  moves: text,
  title: text,
  times: z.enum(["usual", "fastest", "slowest"]),
  end: z.enum(["at rest", "never at rest", "buzzes"]),
  before: state,
  events: z.array(
    z.strictObject({
      ms: z.number(),
      kind: z.enum(["move", "stand", "begins", "recalled", "rest contact", "latch"]),
      id: text,
      to: text,
      says: text,
      dueMs: z.number().optional(),
    }),
  ),
  after: state,
  coils: z.array(
    z.strictObject({
      id: text,
      openSeconds: z.number(),
      closedSeconds: z.number(),
      operateDeadSeconds: z.number(),
      releaseDeadSeconds: z.number(),
      transitSeconds: z.number(),
      isMeasured: z.boolean(),
      operateAmps: z.number().optional(),
      releaseAmps: z.number().optional(),
    }),
  ),
  traces: z.strictObject({
    ms: column,
    coils: z.array(z.strictObject({ id: text, winding: z.number(), amps: column })),
    contacts: z.array(z.strictObject({ part: text, from: text, to: text, closed: bits })),
    relays: z.array(z.strictObject({ id: text, in: bits })),
    volts: z.record(text, z.array(z.number().nullable())),
  }),
});

/** The same as JSON Schema. */
export const timelineJsonSchema = (): unknown => z.toJSONSchema(timelineSchema);
