import { z } from "zod";
import { familyIds, isFamilyId } from "../parts/families.ts";
import { didYouMeanFamily } from "./family-hint.ts";
import { didYouMean, nearest } from "./nearest.ts";
import { orList, type Path, quoted, type Trouble } from "./problem.ts";
import { keysAt, schemaAt, valueAt } from "./schema-walk.ts";
import { capital, mustBe, placeWords } from "./words.ts";

type Issue = z.core.$ZodIssue;

// What zod says about a value, as troubles for a person.

/** Troubles of the value at a path, in the order in which zod finds them, not many more than `most`. */
export function troublesOf(root: unknown, issues: readonly Issue[], at: Path, most: number): Trouble[] {
  const list: Trouble[] = [];
  for (const issue of issues) {
    if (list.length >= most) break;
    list.push(...troubles(root, issue, at, most - list.length));
  }
  return list;
}

function troubles(root: unknown, issue: Issue, above: Path, most: number): Trouble[] {
  const path = [...above, ...issue.path.map((s) => (typeof s === "number" ? s : String(s)))];
  const value = valueAt(root, path);
  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.slice(0, most).map((key) => unknownKey(root, path, key));
    case "invalid_union":
      if (path.at(-1) === "is" && path.length === 3) return [unknownFamily(root, path)];
      return union(root, issue.errors, path, most);
    case "invalid_type":
      return value === undefined ? [missing(root, path)] : [mustBe(root, path, wanted(root, path, issue.expected))];
    case "invalid_value":
      return value === undefined ? [missing(root, path)] : [oneOf(root, path, issue.values)];
    case "invalid_key":
      return [badKey(path, issue.issues[0])];
    default:
      return [mustBe(root, path, plain(issue))];
  }
}

const TYPES: Readonly<Record<string, string>> = {
  string: "a text in double quotes",
  number: "a number",
  boolean: "true or false",
  array: "a list [ ]",
  tuple: "a list [ ]",
  object: "a group { }",
  record: "a group { }",
};
const typeWords = (type: string): string => TYPES[type] ?? type;

/** A bare number where a quantity belongs: say what the quantity looks like rather than "a text". */
function wanted(root: unknown, path: Path, type: string): string {
  const value = valueAt(root, path);
  const schema = schemaAt(root, path);
  if (typeof value !== "number" || schema === undefined) return typeWords(type);
  const asText = z.safeParse(schema, String(value));
  const issue = asText.error?.issues[0];
  return issue?.code === "custom" ? `${issue.message}, in double quotes` : typeWords(type);
}

/** Sizes in words; what a schema of ours says itself is already meant for a person. */
function plain(issue: Issue): string {
  if (issue.code === "too_big") return `${amount(issue.origin, issue.maximum, "at most")}`;
  if (issue.code === "too_small") return `${amount(issue.origin, issue.minimum, "at least")}`;
  return issue.message;
}

function amount(origin: string, limit: number | bigint, how: string): string {
  if (origin === "string")
    return limit === 1 && how === "at least" ? "a text that is not empty" : `a text of ${how} ${limit} characters`;
  if (origin === "array") return `a list of ${how} ${limit}`;
  return how === "at least" && limit === 0 ? "a number above 0" : `${how} ${limit}`;
}

function missing(root: unknown, path: Path): Trouble {
  const owner = capital(placeWords(root, path.slice(0, -1)));
  const key = path[path.length - 1];
  if (typeof key === "number")
    return { ...mustBe(root, path.slice(0, -1), `a list of more than ${key}`), found: `a list of ${key}` };
  const expected = `the key "${key}"`;
  return { path, of: "value", found: "nothing", expected, says: `${owner} has no "${key}"; it needs one.` };
}

function unknownKey(root: unknown, path: Path, key: string): Trouble {
  const keys = keysAt(root, path);
  const family = path.length === 2 && path[0] === "parts" ? valueAt(root, [...path, "is"]) : undefined;
  const owner = `${placeWords(root, path)}${isFamilyId(family) ? ` (${family})` : ""}`;
  const near = nearest(key, keys);
  return {
    path: [...path, key],
    of: "key",
    found: quoted(key),
    expected: near === undefined ? `one of ${keys.join(", ")}` : `"${near}"`,
    says: `${quoted(key)} is not a key that ${owner} can have.${didYouMean(key, keys)}`,
  };
}

function unknownFamily(root: unknown, path: Path): Trouble {
  const value = valueAt(root, path);
  if (value === undefined) return missing(root, path);
  return mustBe(root, path, `one of ${familyIds.join(", ")}`, didYouMeanFamily(String(value)));
}

function oneOf(root: unknown, path: Path, values: readonly z.core.util.Primitive[]): Trouble {
  const value = valueAt(root, path);
  const expected = orList([...new Set(values)].map((v) => (typeof v === "string" ? `"${v}"` : String(v))));
  const words = values.filter((v) => typeof v === "string");
  return mustBe(root, path, expected, typeof value === "string" ? didYouMean(value, words) : "");
}

function badKey(path: Path, issue: Issue | undefined): Trouble {
  const key = String(path[path.length - 1]);
  const expected = issue === undefined ? "another key" : plain(issue);
  return { path, of: "key", found: quoted(key), expected, says: `The key ${quoted(key)} must be ${expected}.` };
}

/** Of several shapes, speak about the one that was probably meant. */
function union(root: unknown, errors: readonly (readonly Issue[])[], path: Path, most: number): Trouble[] {
  const value = valueAt(root, path);
  if (value === undefined) return [missing(root, path)];
  const isOtherType = (issues: readonly Issue[]) =>
    issues.some(
      (i) =>
        i.path.length === 0 &&
        (i.code === "invalid_type" || (i.code === "invalid_value" && i.values.every((v) => typeof v !== typeof value))),
    );
  const close = errors.filter((issues) => !isOtherType(issues)).sort((a, b) => a.length - b.length);
  if (close.length === 0)
    return [mustBe(root, path, typeof value === "number" ? wanted(root, path, "string") : orList(rootWords(errors)))];
  const [best = []] = close;
  const first = best[0];
  // Alternatives that differ in one word: name them all.
  const words = close.flatMap(([i]) =>
    i?.code === "invalid_value" && String(i.path) === String(first?.path) ? i.values : [],
  );
  if (first?.code === "invalid_value" && words.length > first.values.length)
    return [oneOf(root, [...path, ...first.path.map(String)], words)];
  return troublesOf(root, best, path, most);
}

const rootWords = (errors: readonly (readonly Issue[])[]): string[] => [
  ...new Set(
    errors.flatMap(([i]) => {
      if (i?.code === "invalid_type") return [typeWords(i.expected)];
      return i?.code === "invalid_value" ? i.values.map((v) => (typeof v === "string" ? `"${v}"` : String(v))) : [];
    }),
  ),
];
