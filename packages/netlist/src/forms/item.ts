import { parse } from "../loom/parse.ts";
import type { Loom } from "../loom/schema.ts";
import { itemText } from "../loom/write.ts";

type Section = "parts" | "wires" | "definitions";

export type WithItem =
  | { readonly ok: true; readonly loom: Loom }
  /** Why not, in a sentence. */
  | { readonly ok: false; readonly says: string };

/** A part, a wire or a definition as the file writes it. */
export function asInFile(loom: Loom, section: Section, id: string): string {
  const item = loom[section].find((i) => i.id === id);
  return item === undefined ? "" : itemText(section, item);
}

/** The loom with an item as this text has it. Its name must stay: names have edits of their own. */
export function withItem(loom: Loom, section: Section, id: string, text: string): WithItem {
  let item: unknown;
  try {
    item = JSON.parse(text);
  } catch {
    return { ok: false, says: "This is not as in the file: look at its quotes, commas and brackets." };
  }
  const named = typeof item === "object" && item !== null && "id" in item ? item.id : undefined;
  if (named !== id) return { ok: false, says: `The "id" must stay "${id}" here.` };
  const items = loom[section].map((i) => (i.id === id ? item : i));
  const read = parse(JSON.stringify({ ...loom, [section]: items }));
  return read.ok ? read : { ok: false, says: read.problems[0]?.says ?? "That would be no loom." };
}
