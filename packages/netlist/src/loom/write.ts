import { naturalOrder } from "./natural-order.ts";
import { type DrawingText, type Loom, loomSchema, type PartText, partSchemas } from "./schema.ts";

// The canonical text of a loom: sections and keys in the order of the schema, one item a line, items in natural order of
// their ids. Two people's additions then meet in different lines, and git shows what changed.

type Item = Readonly<Record<string, unknown>>;

const LISTS = ["parts", "wires", "world", "intents", "meant", "accepted", "remarks"] as const;
/** Keys whose lists go one item a line inside a definition. */
const OPEN_IN_DEFINITION = new Set(["rails", "pins", "inside", "states"]);

/** The loom as text. What `parse` reads of it is the same loom; writing that again gives the same bytes. */
export function write(loom: Loom): string {
  const sections: string[] = [`"format": ${JSON.stringify(loom.format)}`];
  if (loom.title !== undefined) sections.push(`"title": ${JSON.stringify(loom.title)}`);
  if (loom.note !== undefined) sections.push(`"note": ${JSON.stringify(loom.note)}`);
  sections.push(`"system": ${inLine(ordered(loom.system, Object.keys(loomSchema.shape.system.shape)))}`);
  const blocks = [sections.join(",\n")];
  if (loom.definitions.length > 0)
    blocks.push(`"definitions": [\n${byId(loom.definitions).map(definition).join(",\n")}\n]`);
  for (const section of LISTS) {
    const items: readonly Item[] = loom[section];
    const always = section === "parts" || section === "wires";
    if (items.length > 0)
      blocks.push(
        `"${section}": [\n${byId(items)
          .map((i) => inLine(orderedItem(section, i)))
          .join(",\n")}\n]`,
      );
    else if (always) blocks.push(`"${section}": [\n]`);
  }
  const drawn = loom.drawing === undefined ? [] : drawing(loom.drawing);
  if (drawn.length > 0) blocks.push(`"drawing": {\n${drawn.join(",\n")}\n}`);
  return `{\n${blocks.join(",\n\n")}\n}\n`;
}

/** One item of the file by itself: a line, or the lines of a definition. */
export const itemText = (section: "definitions" | "parts" | "wires", item: Item): string =>
  section === "definitions" ? definition(item) : inLine(orderedItem(section, item));

const idOf = (item: Item): string => String(item.id ?? item.finding ?? "");
const byId = <T extends Item>(items: readonly T[]): readonly T[] =>
  items.toSorted((a, b) => naturalOrder(idOf(a), idOf(b)));

/** Keys in the given order, then any others as they stand. Undefined values are left out. */
function ordered(item: Item, keys: readonly string[]): Item {
  const rest = Object.keys(item).filter((k) => !keys.includes(k));
  return Object.fromEntries([...keys, ...rest].filter((k) => item[k] !== undefined).map((k) => [k, item[k]]));
}

function orderedItem(section: (typeof LISTS)[number], item: Item): Item {
  if (section === "parts") return ordered(item, Object.keys(partSchemas[(item as unknown as PartText).is].shape));
  if (section === "wires") return ordered(item, Object.keys(loomSchema.shape.wires.element.shape));
  return ordered(item, ["id", "finding"]);
}

/** JSON in one line, with a space after colons and commas: as a person writes it. */
function inLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(inLine).join(", ")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  return `{${entries(value)
    .map(([k, v]) => `${JSON.stringify(k)}: ${inLine(v)}`)
    .join(", ")}}`;
}

const entries = (value: object): readonly (readonly [string, unknown])[] =>
  Object.entries(value).filter(([, v]) => v !== undefined);

/** A definition over several lines: its head, then one rail, pin or state a line. */
function definition(item: Item): string {
  const isOpen = (k: string, v: unknown) => (OPEN_IN_DEFINITION.has(k) && Array.isArray(v)) || k === "logic";
  const all = entries(item);
  const head = all.filter(([k, v]) => !isOpen(k, v)).map(([k, v]) => `${JSON.stringify(k)}: ${inLine(v)}`);
  const open = all
    .filter(([k, v]) => isOpen(k, v))
    .map(([k, v]) =>
      Array.isArray(v)
        ? ` "${k}": [\n${v.map((x) => `  ${inLine(x)}`).join(",\n")}\n ]`
        : ` "${k}": ${logic(v as Item)}`,
    );
  return `{${[head.join(", "), ...open].join(",\n")}${open.length > 0 ? "\n" : ""}}`;
}

function logic(item: Item): string {
  const lines = entries(item).map(([k, v]) =>
    k === "on" && typeof v === "object" && v !== null
      ? `  "on": {\n${entries(v)
          .map(([pin, when]) => `   ${JSON.stringify(pin)}: ${inLine(when)}`)
          .join(",\n")}\n  }`
      : `  ${JSON.stringify(k)}: ${inLine(v)}`,
  );
  return `{\n${lines.join(",\n")}\n }`;
}

/** Zones, places and routes one a line, places and routes in natural order. What has nothing in it is left out. */
function drawing({ sheets, zones = [], places = {}, routes = {} }: DrawingText): readonly string[] {
  const block = (name: string, of: Readonly<Record<string, unknown>>) => {
    const keys = Object.keys(of).toSorted(naturalOrder);
    return keys.length === 0
      ? []
      : [` "${name}": {\n${keys.map((k) => `  ${JSON.stringify(k)}: ${inLine(of[k])}`).join(",\n")}\n }`];
  };
  return [
    ...(sheets === undefined ? [] : [` "sheets": ${inLine(sheets)}`]),
    ...(zones.length === 0 ? [] : [` "zones": [\n${zones.map((z) => `  ${inLine(z)}`).join(",\n")}\n ]`]),
    ...block("places", places),
    ...block("routes", routes),
  ];
}
