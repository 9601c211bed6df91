export { behaviourChangeSchema, behaviourSchema } from "./json/behaviour.ts";
export { reportJsonSchema, reportSchema } from "./json/schema.ts";
