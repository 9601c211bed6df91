import { type Loom, parse, write } from "@loomproof/netlist";
import { begun, type History, replayed, type Step, sharedSteps, stepsOf } from "./history.ts";

/** Where a loom was last the same as a file, and how. */
export interface Saved {
  /** Steps made at that time. */
  readonly position: number;
  /** A download is handed to the browser; whether it arrived is not known. */
  readonly how: "read" | "file" | "download";
}

/** A loom that a person works on, with all that is kept of it. Immutable. */
export interface Draft {
  readonly id: string;
  /** Name of its file; empty if it never had one. */
  readonly name: string;
  /** The text it began with. Its steps begin there. */
  readonly base: string;
  readonly history: History;
  /** Undefined if it was never in a file, or if what was saved cannot be reached by Undo and Redo any more. */
  readonly saved: Saved | undefined;
  /** The example it came from. */
  readonly example: string | undefined;
  /** When it was last opened as a file, edited or saved: ms since 1970. */
  readonly edited: number;
}

/** What a list of drafts says of one. */
export interface DraftHead extends Pick<Draft, "id" | "name" | "saved" | "example" | "edited"> {
  readonly title: string;
  readonly position: number;
  /** How many steps there are, done or taken back. */
  readonly steps: number;
  /** Which tab wrote it last, and which of its writings that was. */
  readonly rev: string;
}

/** A draft as it is kept. */
export interface DraftRecord {
  readonly head: DraftHead;
  readonly base: string;
  readonly steps: readonly Step[];
}

export const isUnsaved = ({ saved, history }: Draft): boolean => saved?.position !== history.past.length;

/** Whether it was never edited: then it is the file it was read from, or nothing. */
export const isFresh = ({ history }: Draft): boolean => history.past.length + history.future.length === 0;

/** The draft with another history: after an edit, Undo or Redo. */
export function withHistory(draft: Draft, history: History, now: number): Draft {
  if (history === draft.history) return draft;
  const shared = sharedSteps(stepsOf(draft.history), stepsOf(history));
  const isReached = draft.saved !== undefined && draft.saved.position <= shared;
  return { ...draft, history, edited: now, saved: isReached ? draft.saved : undefined };
}

/** The draft after its text, as it was then, went to a file of this name. It may have been edited meanwhile. */
export function withSaved(draft: Draft, then: Draft, name: string, how: Saved["how"], now: number): Draft {
  const position = then.history.past.length;
  const isReached = position <= sharedSteps(stepsOf(then.history), stepsOf(draft.history));
  return { ...draft, name, edited: now, saved: isReached ? { position, how } : undefined };
}

export const headOf = (draft: Draft, rev: string): DraftHead => ({
  id: draft.id,
  name: draft.name,
  title: draft.history.loom.title ?? "",
  saved: draft.saved,
  example: draft.example,
  edited: draft.edited,
  position: draft.history.past.length,
  steps: draft.history.past.length + draft.history.future.length,
  rev,
});

/** A kept draft with its whole history; undefined if its steps do not fit its text any more. */
export function draftOf({ head, base, steps }: DraftRecord): Draft | undefined {
  const read = parse(base);
  const history = read.ok ? replayed(read.loom, steps, head.position) : undefined;
  if (history === undefined) return undefined;
  const { id, name, saved, example, edited } = head;
  return { id, name, base, history, saved, example, edited };
}

/** A draft of a loom that nobody has edited yet. */
export const newDraft = (
  of: Pick<Draft, "id" | "name" | "saved" | "example"> & { readonly edited: number },
  loom: Loom,
  base = write(loom),
): Draft => ({
  ...of,
  base,
  history: begun(loom),
});

/** The name of a file that is a copy of another: "mine.loom.json" gives "mine-copy.loom.json". */
export const copyName = (name: string): string =>
  name === "" ? "" : name.replace(/(\.loom)?\.json$|$/, (end) => `-copy${end || ".loom.json"}`);

/** A file name for a loom that has none yet: "New loom" gives "new-loom.loom.json". */
export function fileName(title: string): string {
  const plain = title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "");
  return `${plain.slice(0, 60) || "loom"}.loom.json`;
}
