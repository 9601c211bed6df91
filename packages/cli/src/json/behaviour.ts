import type { Behaviour, BehaviourChange } from "@loomproof/analyzer";
import { z } from "zod";
import type { Opened } from "../files.ts";
import { TOOL } from "../tool.ts";
import { intentSchema } from "./schema.ts";

// The published schemas of `behave --json`, for one loom and for two. Tests hold what is printed against them.

const text = z.string();
const head = { id: text, label: text };
const amps = z.number();
const kind = z.enum(["load", "relay", "module", "battery"]);
const verdict = z.enum(["met", "not met", "could not check"]);
const source = z.strictObject({ file: text, loomHash: text });

const row = z.discriminatedUnion("kind", [
  z.strictObject({ ...head, kind: z.literal("load"), cells: z.array(z.enum(["on", "partly", "off"])) }),
  z.strictObject({ ...head, kind: z.literal("relay"), cells: z.array(z.enum(["in", "held", "out"])) }),
  z.strictObject({ ...head, kind: z.literal("module"), cells: z.array(z.enum(["awake", "asleep", "off"])) }),
  z.strictObject({ ...head, kind: z.literal("battery"), cells: z.array(amps) }),
]);

const situation = z.strictObject({
  id: text,
  title: text,
  inputs: z.record(z.string(), z.string()),
  after: text.optional(),
  heldIn: z.array(text),
  against: z.array(z.strictObject({ intent: text, row: text })),
});

/** What is on when. One cell a situation in each row; of a battery the amps that it gives. */
export const behaviourSchema = z.strictObject({
  format: z.literal("loomproof-behaviour/1"),
  tool: text,
  ...source.shape,
  title: text,
  situations: z.array(situation),
  rows: z.array(row),
  more: z.number(),
  intents: z.array(intentSchema),
});

const cell = z.union([amps, z.enum(["on", "partly", "off", "in", "held", "out", "awake", "asleep"])]);

/** What differs between two looms in what is on when. */
export const behaviourChangeSchema = z.strictObject({
  format: z.literal("loomproof-behaviour-change/1"),
  tool: text,
  before: source,
  after: source,
  situations: z.array(
    z.strictObject({
      title: text,
      rows: z.array(z.strictObject({ row: text, label: text, kind, before: cell, after: cell })),
    }),
  ),
  added: z.array(text),
  gone: z.array(text),
  rowsAdded: z.array(text),
  rowsGone: z.array(text),
  intents: z.array(
    z.strictObject({ id: text, says: z.array(text), before: verdict.optional(), after: verdict.optional() }),
  ),
});

type Readable = Extract<Opened, { readonly ok: true }>;
const sourceOf = ({ file, hash }: Readable): z.infer<typeof source> => ({ file, loomHash: hash });

export const jsonBehaviour = (opened: Readable, behaviour: Behaviour): unknown => ({
  format: "loomproof-behaviour/1",
  tool: TOOL,
  ...sourceOf(opened),
  ...behaviour,
});

export const jsonBehaviourChange = (before: Readable, after: Readable, change: BehaviourChange): unknown => ({
  format: "loomproof-behaviour-change/1",
  tool: TOOL,
  before: sourceOf(before),
  after: sourceOf(after),
  ...change,
});

/** The same as JSON Schema. */
export const behaviourJsonSchema = (): unknown => z.toJSONSchema(behaviourSchema);
export const behaviourChangeJsonSchema = (): unknown => z.toJSONSchema(behaviourChangeSchema);
