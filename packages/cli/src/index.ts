export { behaviourChangeSchema, behaviourSchema } from "./json/behaviour.ts";
export { reportJsonSchema, reportSchema } from "./json/schema.ts";
export { timelineJsonSchema, timelineSchema } from "./json/timeline-schema.ts";
