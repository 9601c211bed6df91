/** Keys and indices from the whole file down to one value. */
export type Path = readonly (string | number)[];

/** Something wrong in a file: where, what stands there, what should, and a sentence for a person. Lines count from 1. */
export interface Problem {
  readonly path: string;
  readonly line: number;
  readonly column: number;
  readonly found: string;
  readonly expected: string;
  readonly says: string;
}

/** A problem that knows its path and not yet its place. */
export interface Trouble {
  readonly path: Path;
  /** Whether the key at the end of the path is meant, or its value. */
  readonly of: "key" | "value";
  readonly found: string;
  readonly expected: string;
  readonly says: string;
}

const PLAIN_KEY = /^[A-Za-z_][A-Za-z0-9_-]*$/;

/** `parts[3].coil`. */
export function pathText(path: Path): string {
  return path
    .map((step, i) => {
      if (typeof step === "number") return `[${step}]`;
      if (!PLAIN_KEY.test(step)) return `[${quoted(step)}]`;
      return i === 0 ? step : `.${step}`;
    })
    .join("");
}

const SHOWN = 40;
/** Characters that could move the cursor or turn the writing round. */
const UNPRINTABLE = /[\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g;

/** A text in quotes, cut when long, with nothing in it that a terminal could act on. */
export function quoted(text: string): string {
  const cut = text.length > SHOWN ? `${text.slice(0, SHOWN)}…` : text;
  return JSON.stringify(cut).replace(UNPRINTABLE, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

/** A value of the file in a few words. */
export function foundText(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "string") return quoted(value);
  if (Array.isArray(value)) return value.length === 0 ? "an empty list [ ]" : "a list [ ]";
  if (typeof value === "object" && value !== null) return "a group { }";
  return String(value);
}

/** "a, b or c". */
export function orList(words: readonly string[]): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} or ${words[words.length - 1]}`;
}
