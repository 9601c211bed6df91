import { z } from "zod";
import { loomSchema } from "./schema.ts";

/** The JSON Schema of the file, for editors and other programs. What it cannot say (units, references) `parse` checks. */
export const loomJsonSchema = (): unknown => z.toJSONSchema(loomSchema, { io: "input", unrepresentable: "any" });
