/** What has a published schema. By itself, so that naming them loads nothing. */
export const schemaNames = ["loom", "report", "behaviour", "behaviour-change", "timeline"] as const;
export type SchemaName = (typeof schemaNames)[number];
