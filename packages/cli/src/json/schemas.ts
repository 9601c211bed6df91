import { loomJsonSchema } from "@loomproof/netlist";
import { behaviourChangeJsonSchema, behaviourJsonSchema } from "./behaviour.ts";
import type { SchemaName } from "./names.ts";
import { reportJsonSchema } from "./schema.ts";
import { timelineJsonSchema } from "./timeline-schema.ts";

/** Every published schema as JSON Schema. */
export const schemas: { readonly [N in SchemaName]: () => unknown } = {
  loom: loomJsonSchema,
  report: reportJsonSchema,
  behaviour: behaviourJsonSchema,
  "behaviour-change": behaviourChangeJsonSchema,
  timeline: timelineJsonSchema,
};
