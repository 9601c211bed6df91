export { reportJsonSchema, reportSchema } from "./json/schema.ts";
