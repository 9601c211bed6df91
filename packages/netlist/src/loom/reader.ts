import { Places, placeText } from "./places.ts";
import { type Problem, pathText, quoted } from "./problem.ts";

// JSON that keeps the place of everything in it. Stricter than the standard where a slip would go unseen: a key twice,
// a control character, half a character pair.

export interface ReadLimits {
  readonly depth: number;
  readonly values: number;
  /** Most members of any one list or group. */
  readonly members: number;
  /** Most items in the lists that stand at the top of the file, by name. */
  readonly items: ReadonlyMap<string, number>;
}

/** `value` is undefined when the text could not be read to its end. */
export interface Reading {
  readonly value: unknown;
  readonly places: Places;
  readonly problems: readonly Problem[];
}

const MOST_PROBLEMS = 1000;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /[\p{L}\p{N}_.+-]{1,40}/uy;
// Line breaks and tabs may stand in a note; nothing else that cannot be seen.
const isControl = (c: number): boolean => (c < 32 && c !== 9 && c !== 10 && c !== 13) || (c >= 127 && c < 160);
const HALF_PAIR = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/;
const LITERALS: ReadonlyMap<string, boolean | null> = new Map<string, boolean | null>([
  ["true", true],
  ["false", false],
  ["null", null],
]);
/** Names that every object already has: as keys they would be lost or misread. */
const MISREAD: ReadonlySet<string> = new Set(Object.getOwnPropertyNames(Object.prototype));

/** Reads a whole text. A slip of JSON stops the reading; slips that harm one value are gathered. */
export function readJson(text: string, limits: ReadLimits): Reading {
  const reader = new Reader(text, limits);
  const { places, problems } = reader;
  try {
    return { value: reader.whole(), places, problems };
  } catch (stop) {
    if (!(stop instanceof Stop)) throw stop;
    return { value: undefined, places, problems };
  }
}

class Stop extends Error {}

class Reader {
  readonly problems: Problem[] = [];
  readonly places: Places;
  private readonly text: string;
  private readonly limits: ReadLimits;
  private readonly path: (string | number)[] = [];
  private at = 0;
  private values = 0;

  constructor(text: string, limits: ReadLimits) {
    this.text = text;
    this.limits = limits;
    this.places = new Places(text);
  }

  whole(): unknown {
    // Some editors put a byte order mark first; RFC 8259, section 8.1, lets a reader pass over it.
    if (this.text.charCodeAt(0) === 0xfeff) this.at = 1;
    this.skip();
    if (this.at >= this.text.length) this.stop("an empty file", "a loom in { }", "The file is empty.");
    const start = this.at;
    const root = this.value(0);
    this.places.setRoot(root, start);
    this.skip();
    if (this.at < this.text.length) this.unexpected("the end of the file");
    return root;
  }

  private value(depth: number): unknown {
    const { limits } = this;
    if (++this.values > limits.values) this.tooMany(limits.values, "values");
    const c = this.text[this.at];
    if (c === '"') return this.string();
    if (c !== "{" && c !== "[") return this.word();
    if (depth >= limits.depth)
      this.stop(
        `${depth + 1} brackets inside each other`,
        `at most ${limits.depth}`,
        `The brackets are nested deeper than ${limits.depth}; no loom needs that.`,
      );
    return c === "{" ? this.group(depth + 1) : this.list(depth + 1);
  }

  private group(depth: number): unknown {
    const out = Object.create(null) as Record<string, unknown>;
    this.places.addGroup(out);
    for (let count = 0; this.more("}", count === 0); count++) {
      if (count >= this.limits.members) this.tooMany(this.limits.members, "keys in one group");
      const keyAt = this.at;
      if (this.text[keyAt] !== '"') this.unexpected("a key in double quotes");
      const key = this.string();
      this.skip();
      if (this.text[this.at] !== ":") this.unexpected(`":" after the key ${quoted(key)}`);
      this.at++;
      this.skip();
      const valueAt = this.at;
      this.path.push(key);
      const value = this.value(depth);
      if (MISREAD.has(key))
        this.tell(
          keyAt,
          quoted(key),
          "another key",
          `${quoted(key)} cannot be a key: programs keep that name for themselves.`,
        );
      else if (Object.hasOwn(out, key)) this.twice(out, key, keyAt);
      else {
        out[key] = value;
        this.places.addKey(out, key, keyAt, valueAt);
      }
      this.path.pop();
    }
    return out;
  }

  private twice(group: object, key: string, keyAt: number): void {
    const [a, b] = [this.places.place(this.places.keyOffset(group, key)), this.places.place(keyAt)];
    this.tell(
      keyAt,
      `${quoted(key)} again`,
      "each key once",
      `The key ${quoted(key)} stands twice: at ${placeText(a)}, and at ${placeText(b)}.`,
    );
  }

  private list(depth: number): unknown {
    const out: unknown[] = [];
    const starts: number[] = [];
    this.places.addList(out, starts);
    const named = this.path.length === 1 ? this.limits.items.get(String(this.path[0])) : undefined;
    const most = named ?? this.limits.members;
    while (this.more("]", out.length === 0)) {
      if (out.length >= most) this.tooMany(most, named === undefined ? "items in one list" : String(this.path[0]));
      starts.push(this.at);
      this.path.push(out.length);
      out.push(this.value(depth));
      this.path.pop();
    }
    return out;
  }

  /** Steps over the opening bracket or a comma; false at the closing one. */
  private more(close: "}" | "]", first: boolean): boolean {
    if (first) this.at++;
    this.skip();
    const comma = this.at;
    if (this.text[comma] === close) {
      this.at++;
      return false;
    }
    if (first) return true;
    if (this.text[comma] !== ",") this.unexpected(`"," or "${close}"`);
    this.at++;
    this.skip();
    if (this.text[this.at] !== close) return true;
    this.at = comma;
    this.stop(`a comma before "${close}"`, `"${close}"`, `There is a comma too many before "${close}".`);
  }

  private tooMany(most: number, things: string): never {
    this.stop(
      `more than ${most} ${things}`,
      `at most ${most} ${things}`,
      `The file has more than ${most} ${things}; Loomproof takes no more.`,
    );
  }

  private string(): string {
    const { text } = this;
    const start = this.at;
    let [i, escaped, odd] = [start + 1, false, false];
    for (; text.charCodeAt(i) !== 34; i++) {
      const c = text.charCodeAt(i);
      if (i >= text.length || c === 10 || c === 13) {
        const end = i >= text.length ? "file" : "line";
        this.stop(
          `the end of the ${end}`,
          "a closing double quote",
          `The text that begins here has no closing double quote before the end of the ${end}.`,
        );
      }
      odd ||= isControl(c) || c === 9 || (c >= 0xd800 && c <= 0xdfff);
      if (c === 92) [escaped, i] = [true, i + 1];
    }
    this.at = i + 1;
    if (!escaped && !odd) return text.slice(start + 1, i);
    return this.checked(start, escaped ? this.unescaped(start, i) : text.slice(start + 1, i));
  }

  /** The standard knows what escapes mean; raw control characters it would refuse stand here for our own message. */
  private unescaped(start: number, end: number): string {
    const plain = this.text
      .slice(start + 1, end)
      .replace(/\p{Cc}/gu, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, "0")}`);
    try {
      return JSON.parse(`"${plain}"`) as string;
    } catch {
      this.at = start;
      this.stop(
        "a backslash that means nothing",
        String.raw`\" \\ \/ \n \t \r or \u and four digits`,
        "A backslash in this text is followed by what JSON does not know; write two backslashes for one.",
      );
    }
  }

  private checked(start: number, value: string): string {
    if (HALF_PAIR.test(value))
      this.tell(
        start,
        "half of a character",
        "whole characters",
        "This text holds half of a character; type it again.",
      );
    const control = [...value].find((c) => isControl(c.charCodeAt(0)));
    if (control !== undefined)
      this.tell(
        start,
        `an invisible control character (${quoted(control)})`,
        "text that can be seen",
        "This text holds an invisible control character; remove it.",
      );
    return value;
  }

  private word(): unknown {
    const word = this.nextWord();
    const literal = LITERALS.get(word);
    if (literal !== undefined) {
      this.at += word.length;
      return literal;
    }
    NUMBER.lastIndex = this.at;
    const digits = NUMBER.exec(this.text)?.[0] ?? "";
    if (digits === "" || !digits.startsWith(word))
      this.unexpected("a value: a text in double quotes, a number, true, false, null, [ ] or { }");
    const number = Number(digits);
    if (!Number.isFinite(number))
      this.stop("a number too large to hold", "a smaller number", "This number is too large to hold.");
    this.at += digits.length;
    return number === 0 ? 0 : number;
  }

  private nextWord(): string {
    WORD.lastIndex = this.at;
    return WORD.exec(this.text)?.[0] ?? "";
  }

  private skip(): void {
    for (; ; this.at++) {
      const c = this.text.charCodeAt(this.at);
      if (c !== 32 && c !== 10 && c !== 13 && c !== 9) return;
    }
  }

  private unexpected(expected: string): never {
    const c = this.text.codePointAt(this.at);
    if (c === undefined)
      this.stop("the end of the file", expected, `The file breaks off here; ${expected} should follow.`);
    const word = this.nextWord();
    const found = quoted(word === "" ? String.fromCodePoint(c) : word);
    if (found === '"#"' || /^\/[/*]/.test(this.text.slice(this.at, this.at + 2)))
      this.stop("a comment", expected, 'A loom file has no comments; write a "note" instead.');
    this.stop(found, expected, `There is ${found} where ${expected} should be.`);
  }

  private stop(found: string, expected: string, says: string): never {
    this.tell(this.at, found, expected, says);
    throw new Stop();
  }

  private tell(offset: number, found: string, expected: string, says: string): void {
    this.problems.push({ path: pathText(this.path), ...this.places.place(offset), found, expected, says });
    if (this.problems.length >= MOST_PROBLEMS) throw new Stop();
  }
}
