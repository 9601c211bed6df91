import { type Loom, newLoom, type Problem, parse, write } from "@loomproof/netlist";
import { draftAddress, goTo } from "./address.ts";
import { copyName, type Draft, type DraftHead, draftOf, newDraft, withHistory } from "./draft.ts";
import type { DraftStore, FileOnDisk, Kept } from "./drafts.ts";
import type { Edit } from "./editing.ts";
import { edited, redone, undone } from "./history.ts";
import { type Keeper, type Keeping, keeperOf, NOTHING_KEPT } from "./keeper.ts";
import { letters } from "./letters.ts";
import type { Scenario } from "./scenarios.ts";

/** All that the page knows of what is open and what can be opened. */
export interface Desk {
  readonly draft: Draft | undefined;
  /** Counts what was opened: another number, another loom. */
  readonly opened: number;
  readonly keeping: Keeping;
  /** The file on the disk, where the browser can write it. */
  readonly file: FileOnDisk | undefined;
  /** A file that could not be opened. What was open stays. */
  readonly refused: { readonly name: string; readonly problems: readonly Problem[] } | undefined;
  /** What the address asks for and there is not. */
  readonly missing: string | undefined;
  readonly drafts: readonly DraftHead[];
  /** What was just done, for those who do not see it. */
  readonly said: string;
}

const EMPTY: Desk = {
  draft: undefined,
  opened: 0,
  keeping: NOTHING_KEPT,
  file: undefined,
  refused: undefined,
  missing: undefined,
  drafts: [],
  said: "",
};

export interface Documents {
  readonly desk: () => Desk;
  readonly subscribe: (listener: () => void) => () => void;
  readonly edit: Edit;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly openBlank: () => void;
  readonly openExample: (example: Scenario) => void;
  readonly openDraft: (id: string) => Promise<void>;
  readonly openFile: (name: string, text: string, handle: FileSystemFileHandle | undefined) => void;
  readonly close: (missing?: string) => void;
  /** Puts down a file that could not be opened. */
  readonly dismiss: () => void;
  /** Puts another state of the open draft in its place, and keeps it. */
  readonly replace: (make: (draft: Draft) => Draft, file: FileOnDisk | undefined, said: string) => void;
  readonly takeOther: () => Promise<void>;
  readonly keepCopy: () => void;
  readonly look: () => void;
  readonly refresh: () => Promise<void>;
  readonly remove: (id: string) => Promise<void>;
}

interface With {
  readonly store: DraftStore;
  /** ms since 1970. */
  readonly now: () => number;
  /** Applied to what an edit made, within the same step. */
  readonly finish: (before: Loom, after: Loom) => Loom;
}

/** The looms of one tab: one is open, edited through here only, and kept as it changes. */
export function documentsOf({ store, now, finish }: With): Documents {
  const listeners = new Set<() => void>();
  const tab = letters(12);
  let writings = 0;
  let desk = EMPTY;
  let keeper: Keeper | undefined;
  const set = (next: Partial<Desk>) => {
    desk = { ...desk, ...next };
    for (const listener of listeners) listener();
  };
  const keeperFor = (read?: Kept): Keeper => {
    const made: Keeper = keeperOf(
      store,
      () => `${tab}.${++writings}`,
      read,
      () => {
        if (made === keeper) set({ keeping: made.keeping() });
      },
    );
    return made;
  };
  const show = (draft: Draft, by: Keeper, file?: FileOnDisk) => {
    keeper = by;
    set({
      draft,
      file,
      opened: desk.opened + 1,
      keeping: by.keeping(),
      refused: undefined,
      missing: undefined,
      said: "",
    });
  };
  const keep = (draft: Draft) => {
    set({ draft });
    goTo(draftAddress(draft.id), true);
    keeper?.keep(draft);
  };
  const turn = (to: typeof undone, word: string, says: (draft: Draft) => string | undefined) => {
    const { draft } = desk;
    const said = draft && says(draft);
    if (draft === undefined || said === undefined) return;
    keep(withHistory(draft, to(draft.history), now()));
    set({ said: `${word}: ${said}` });
  };
  const read = async (id: string): Promise<Kept | "nothing" | "unreadable"> => {
    const record = await store.read(id).catch(() => undefined);
    if (record === undefined) return "nothing";
    const draft = draftOf(record);
    return draft === undefined ? "unreadable" : { draft, rev: record.head.rev };
  };
  const refresh = async () => {
    set({ drafts: await store.list().catch(() => []) });
  };
  const documents: Documents = {
    desk: () => desk,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    edit: (says, make) => {
      const { draft } = desk;
      if (draft === undefined) return "No loom is open.";
      const before = draft.history.loom;
      const made = make(before);
      const checked = parse(write(made));
      if (!checked.ok) return checked.problems[0]?.says ?? "That would be no loom.";
      // Only what is a loom can be drawn.
      const after = finish(before, made);
      const next = withHistory(draft, edited(draft.history, says, after), now());
      if (next !== draft) keep(next);
      return undefined;
    },
    undo: () => turn(undone, "Undone", (d) => d.history.past.at(-1)?.says),
    redo: () => turn(redone, "Done again", (d) => d.history.future[0]?.says),
    openBlank: () => {
      const of = { id: letters(10), name: "", saved: undefined, example: undefined, edited: now() };
      show(newDraft(of, newLoom()), keeperFor());
    },
    openExample: ({ id, name, text }) => {
      const got = parse(text);
      if (!got.ok) throw new Error(`the example ${id} is no loom: ${got.problems[0]?.says}`);
      const of = { id: letters(10), name, saved: undefined, example: id, edited: now() };
      show(newDraft(of, got.loom, text), keeperFor());
    },
    openDraft: async (id) => {
      if (desk.draft?.id === id) return set({ refused: undefined });
      const { opened } = desk;
      await keeper?.idle();
      const found = await read(id);
      const file = await store.file(id).catch(() => undefined);
      // Something else was opened meanwhile.
      if (desk.opened !== opened) return;
      if (found === "nothing") documents.close("That loom is not kept in this browser any more.");
      else if (found === "unreadable") documents.close("That loom is kept here, but this Loomproof cannot read it.");
      else show(found.draft, keeperFor(found), file);
    },
    openFile: (name, text, handle) => {
      const got = parse(text);
      if (!got.ok) return set({ refused: { name, problems: got.problems } });
      const saved = { position: 0, how: "read" } as const;
      const draft = newDraft({ id: letters(10), name, saved, example: undefined, edited: now() }, got.loom, text);
      const file = handle && { handle, text };
      show(draft, keeperFor(), file);
      goTo(draftAddress(draft.id));
      keep(draft);
      void afterOpening(draft, file);
    },
    close: (missing) => {
      const idle = keeper?.idle();
      keeper = undefined;
      set({ ...EMPTY, opened: desk.opened + 1, drafts: desk.drafts, missing });
      void Promise.resolve(idle).then(refresh);
    },
    dismiss: () => set({ refused: undefined }),
    replace: (make, file, said) => {
      if (desk.draft === undefined) return;
      set({ file, said });
      keep(make(desk.draft));
      if (file !== undefined) void store.keepFile(desk.draft.id, file).catch(() => undefined);
    },
    takeOther: async () => {
      const { draft } = desk;
      if (draft === undefined) return;
      const found = await read(draft.id);
      const file = await store.file(draft.id).catch(() => undefined);
      if (desk.draft?.id !== draft.id) return;
      // Deleted meanwhile: then there is only mine.
      if (found === "nothing" || found === "unreadable") return documents.keepCopy();
      keeper = keeperFor(found);
      set({ draft: found.draft, file, keeping: keeper.keeping(), said: "Taken from the other tab" });
    },
    keepCopy: () => {
      const { draft } = desk;
      if (draft === undefined) return;
      keeper = keeperFor();
      set({ file: undefined, keeping: keeper.keeping(), said: "Kept as a copy" });
      keep({ ...draft, id: letters(10), name: copyName(draft.name), saved: undefined, edited: now() });
    },
    look: () => {
      // What the browser refused before it may take now.
      if (desk.keeping.hasFailed && desk.draft !== undefined) keeper?.keep(desk.draft);
      void keeper?.look();
    },
    refresh,
    remove: async (id) => {
      await store.remove(id).catch(() => undefined);
      await refresh();
    },
  };
  /** A file read again takes the place of an earlier reading that nobody edited: such a one is only what the file was. */
  async function afterOpening({ id, name }: Draft, file: FileOnDisk | undefined): Promise<void> {
    await keeper?.idle();
    if (file !== undefined) await store.keepFile(id, file).catch(() => undefined);
    await refresh();
    for (const head of desk.drafts)
      if (head.id !== id && head.name === name && head.steps === 0 && head.saved?.how === "read")
        await documents.remove(head.id);
  }
  return documents;
}
