// Values with a shape of their own as one line that a person reads and types. Each form reads what it writes; what it
// cannot write so, the editor shows as in the file.

export type ReadLine =
  | { readonly ok: true; readonly value: unknown }
  /** What was expected, with an example. */
  | { readonly ok: false; readonly expected: string };

export interface TextForm {
  readonly write: (raw: unknown) => string;
  readonly read: (line: string) => ReadLine;
}

const given = (value: unknown): ReadLine => ({ ok: true, value });
const pieces = (line: string, mark: string): readonly string[] =>
  line
    .split(mark)
    .map((p) => p.trim())
    .filter((p) => p !== "");

/** The text itself. */
export const plainText: TextForm = { write: (raw) => String(raw), read: given };

/** "off, run, start". */
export const listText: TextForm = {
  write: (raw) => (raw as readonly string[]).join(", "),
  read: (line) => given(pieces(line, ",")),
};

/** "start: run; other: run". */
export const recordText = (example: string): TextForm => ({
  write: (raw) => lines(raw as Readonly<Record<string, string>>, (v) => v),
  read: (line) => record(line, example, (v) => v),
});

/** "empty: M1 M2": names by a name. */
export const listsText = (example: string): TextForm => ({
  write: (raw) => lines(raw as Readonly<Record<string, readonly string[]>>, (v) => v.join(" ") || NOTHING),
  read: (line) => record(line, example, words),
});

/** "off: nothing; run: 30-15; start: 30-15 30-50": pairs by a name. */
export const pairsText: TextForm = {
  write: (raw) =>
    lines(
      raw as Readonly<Record<string, readonly (readonly string[])[]>>,
      (v) => v.map((p) => p.join("-")).join(" ") || NOTHING,
    ),
  read: (line) =>
    record(line, "off: nothing; run: 30-15", (v) => {
      const pairs = words(v).map((w) => w.split("-"));
      return pairs.every((p) => p.length === 2 && !p.includes("")) ? pairs : undefined;
    }),
};

/** "30 makes 87, breaks 87a; 31 makes 88". */
export const contactsText: TextForm = {
  write: (raw) =>
    (raw as readonly { readonly common: string; readonly make?: string; readonly break?: string }[])
      .map((c) => {
        const ends = [c.make === undefined ? [] : `makes ${c.make}`, c.break === undefined ? [] : `breaks ${c.break}`];
        return `${c.common} ${ends.flat().join(", ")}`;
      })
      .join("; "),
  read: (line) => {
    const contacts = pieces(line, ";").map((one) => CONTACT.exec(one));
    if (contacts.some((c) => c === null))
      return { ok: false, expected: "the common terminal and what it makes and breaks: 30 makes 87, breaks 87a" };
    return given(
      contacts.map((c) => ({
        common: c?.[1],
        ...(c?.[2] === undefined ? {} : { make: c[2] }),
        ...(c?.[3] === undefined ? {} : { break: c[3] }),
      })),
    );
  },
};
const CONTACT = /^(\S+)(?:\s+makes\s+([^\s,]+),?)?(?:\s+breaks\s+(\S+))?$/;

/** "86-85 90 ohm; 87-85 45 ohm, 0.5 turns". */
export const windingsText: TextForm = {
  write: (raw) =>
    (raw as readonly { readonly between: readonly string[]; readonly ohms?: string; readonly turns?: number }[])
      .map(({ between, ohms, turns }) => {
        const says = [ohms ?? [], turns === undefined ? [] : `${turns} turns`].flat();
        return [between.join("-"), says.join(", ")].join(" ").trim();
      })
      .join("; "),
  read: (line) => {
    const windings = pieces(line, ";").map((one) => WINDING.exec(one));
    if (windings.some((w) => w === null))
      return { ok: false, expected: "its start and end, then ohms and turns if known: 86-85 90 ohm, 1 turns" };
    return given(
      windings.map((w) => ({
        between: [w?.[1], w?.[2]],
        ...(w?.[3] === undefined ? {} : { ohms: w[3].trim() }),
        ...(w?.[4] === undefined ? {} : { turns: Number(w[4]) }),
      })),
    );
  },
};
const WINDING = /^([^\s-]+)-([^\s-]+)(?:\s+(?!\S+\s+turns$)([^,]+?))?(?:,?\s+(\d+(?:\.\d+)?)\s+turns)?$/;

/** As in the file, in one line. */
export const jsonText: TextForm = {
  write: (raw) => JSON.stringify(raw),
  read: (line) => {
    try {
      return given(JSON.parse(line));
    } catch {
      return { ok: false, expected: "the value as in the file, with its quotes and brackets" };
    }
  },
};

const NOTHING = "nothing";
const words = (text: string): readonly string[] => (text === NOTHING ? [] : text.split(/\s+/).filter((w) => w !== ""));

const lines = <T>(group: Readonly<Record<string, T>>, write: (value: T) => string): string =>
  Object.entries(group)
    .map(([name, value]) => `${name}: ${write(value)}`)
    .join("; ");

function record(line: string, example: string, read: (text: string) => unknown): ReadLine {
  const list = pieces(line, ";").map((one) => {
    const colon = one.indexOf(":");
    return colon < 0 ? [one, ""] : [one.slice(0, colon).trim(), one.slice(colon + 1).trim()];
  });
  const entries = list.map(([name = "", text = ""]) => [name, read(text)] as const);
  const isTwice = new Set(list.map(([name]) => name)).size < list.length;
  if (isTwice || entries.some(([name, value]) => name === "" || value === undefined || value === ""))
    return { ok: false, expected: `each name once, with ":" and what belongs to it: ${example}` };
  return { ok: true, value: Object.fromEntries(entries) };
}
