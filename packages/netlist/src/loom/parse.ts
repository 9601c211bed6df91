import { type Places, placeText } from "./places.ts";
import { foundText, type Path, type Problem, pathText, quoted, type Trouble } from "./problem.ts";
import { readJson } from "./reader.ts";
import { referenceTroubles } from "./references.ts";
import { FORMAT, LIMITS, type Loom } from "./schema.ts";
import { valueAt } from "./schema-walk.ts";
import { scopeTroubles } from "./scope.ts";
import { readShape, sections } from "./shape.ts";

/** A loom, or everything that is wrong with the text. `problems` is empty when it is a loom. */
export type Parsed =
  | { readonly ok: true; readonly loom: Loom; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

const MOST_TOLD = 100;
/** Past so many the rest is not even looked for. */
const MOST_SOUGHT = 1000;
const READ_LIMITS = { ...LIMITS, items: new Map(sections.map((s) => [s as string, LIMITS[s]])) };

/** Reads the text of a loom file. Every problem is told at once, in the order of the text. */
export function parse(text: string): Parsed {
  if (isTooLong(text)) return { ok: false, problems: [tooLong()] };
  const { value: root, places, problems } = readJson(text, READ_LIMITS);
  if (root === undefined) return { ok: false, problems: told(problems) };
  const format = formatTrouble(root);
  if (format !== undefined) return { ok: false, problems: [placed(format, places)] };
  const shape = readShape(root, MOST_SOUGHT);
  const scope = scopeTroubles(root);
  const refused = new Set(scope.map((t) => pathText(t.path)));
  // What is out of scope is told as that, not as a wrong value too.
  const where = (path: Path) => placeText(places.place(places.offset(path, "value")));
  const others = [...shape.troubles, ...referenceTroubles(shape, where, MOST_SOUGHT)].filter(
    (t) => !refused.has(pathText(t.path)),
  );
  const all = [...problems, ...[...scope, ...others].map((t) => placed(t, places))];
  if (shape.loom !== undefined && all.length === 0) return { ok: true, loom: shape.loom, problems: [] };
  return { ok: false, problems: told(all) };
}

/** Bytes of UTF-8 past the limit? Counted only when it could be so. */
function isTooLong(text: string): boolean {
  if (text.length > LIMITS.bytes) return true;
  if (text.length * 3 <= LIMITS.bytes) return false;
  let bytes = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    // Each half of a pair counts two of its four bytes.
    bytes += c < 0x80 ? 1 : c < 0x800 || (c >= 0xd800 && c < 0xe000) ? 2 : 3;
  }
  return bytes > LIMITS.bytes;
}

function tooLong(): Problem {
  const most = `${LIMITS.bytes / 1e6} MB`;
  return {
    path: "",
    line: 1,
    column: 1,
    found: `more than ${most}`,
    expected: `at most ${most}`,
    says: `The file is larger than ${most}; Loomproof takes no more.`,
  };
}

const VERSION = /^loomproof\/(\d{1,6})$/;
const NEWEST = Number(VERSION.exec(FORMAT)?.[1]);

/** A file of another format is not checked any further. */
function formatTrouble(root: unknown): Trouble | undefined {
  const value = valueAt(root, ["format"]);
  if (value === FORMAT) return undefined;
  const known = { path: ["format"], of: "value", expected: `"${FORMAT}"`, found: foundText(value) } as const;
  const version = typeof value === "string" ? VERSION.exec(value)?.[1] : undefined;
  if (version !== undefined && Number(version) > NEWEST)
    return {
      ...known,
      says: `This file is written in ${String(value)}; this Loomproof reads up to ${FORMAT}. Take a newer Loomproof.`,
    };
  if (version !== undefined)
    return {
      ...known,
      says: `This file is written in ${String(value)}, which was never released; this Loomproof reads ${FORMAT}.`,
    };
  if (typeof root !== "object" || root === null || Array.isArray(root))
    return {
      ...known,
      path: [],
      found: foundText(root),
      expected: "a loom in { }",
      says: "This is not a loom file: it must be one group in { }.",
    };
  const has =
    value === undefined
      ? `it has no "format"`
      : `its "format" is ${typeof value === "string" ? quoted(value) : foundText(value)}`;
  return { ...known, says: `This is not a loom file: ${has}; it must be "${FORMAT}".` };
}

function placed({ path, of, found, expected, says }: Trouble, places: Places): Problem {
  return { path: pathText(path), ...places.place(places.offset(path, of)), found, expected, says };
}

/** In the order of the text; a long list ends in a line that counts the rest. */
function told(problems: readonly Problem[]): readonly Problem[] {
  const sorted = [...problems].sort((a, b) => a.line - b.line || a.column - b.column);
  const last = sorted[MOST_TOLD];
  if (last === undefined) return sorted;
  const more = `${sorted.length - MOST_TOLD}${sorted.length >= MOST_SOUGHT ? " or more" : ""}`;
  const rest: Problem = {
    ...last,
    path: "",
    found: `${more} further problems`,
    expected: "none",
    says: `And ${more} further problems.`,
  };
  return [...sorted.slice(0, MOST_TOLD), rest];
}
