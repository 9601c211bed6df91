import type { Draft } from "./draft.ts";
import type { DraftStore, Kept } from "./drafts.ts";

/** How what is on the page stands to what the browser keeps of it. */
export interface Keeping {
  /** What is on the disk for certain; undefined if nothing is. */
  readonly kept: Draft | undefined;
  /** Another tab has written this draft; nothing more is written until a person decides. */
  readonly isApart: boolean;
  /** The browser refused: then nothing is kept until it takes something again. */
  readonly hasFailed: boolean;
  /** The browser takes its time: what is not yet kept can be lost. */
  readonly isLate: boolean;
}

export const NOTHING_KEPT: Keeping = { kept: undefined, isApart: false, hasFailed: false, isLate: false };

/** Longer than that, ms, and the page says that something is not kept yet. */
const LATE = 1000;

/** Keeps one draft as it changes, one writing after another. */
export interface Keeper {
  readonly keeping: () => Keeping;
  readonly keep: (draft: Draft) => void;
  /** Whether another tab has written meanwhile is looked up. */
  readonly look: () => Promise<void>;
  /** Resolves when nothing is being written. */
  readonly idle: () => Promise<void>;
}

/**
 * A keeper of one draft, which begins with what was read of it. `tell` is called when `keeping` has changed. While one state
 * is written only the newest of those that follow waits: each holds all steps before it.
 */
export function keeperOf(store: DraftStore, rev: () => string, read: Kept | undefined, tell: () => void): Keeper {
  let last = read;
  let keeping: Keeping = { ...NOTHING_KEPT, kept: read?.draft };
  let waiting: Draft | undefined;
  let running: Promise<void> = Promise.resolve();
  let isRunning = false;
  const set = (next: Partial<Keeping>) => {
    keeping = { ...keeping, ...next };
    tell();
  };
  const writeOne = async (draft: Draft) => {
    const next = { draft, rev: rev() };
    const late = setTimeout(() => set({ isLate: true }), LATE);
    try {
      const done = await store.commit(last, draft, next.rev);
      if (done === "other") {
        set({ isApart: true });
        return;
      }
      last = next;
      set({ kept: draft, hasFailed: false, isLate: false });
    } catch {
      set({ hasFailed: true, isLate: false });
    } finally {
      clearTimeout(late);
    }
  };
  const writeAll = async () => {
    while (waiting !== undefined && !keeping.isApart) {
      const draft = waiting;
      waiting = undefined;
      await writeOne(draft);
    }
    isRunning = false;
  };
  return {
    keeping: () => keeping,
    keep: (draft) => {
      waiting = draft;
      if (isRunning || keeping.isApart) return;
      isRunning = true;
      running = writeAll();
    },
    look: async () => {
      await running;
      if (last === undefined || keeping.isApart) return;
      const [asked, rev] = [last, await store.rev(last.draft.id).catch(() => last?.rev)];
      // A deleted draft is no other state: it is kept again with the next edit.
      if (rev !== undefined && rev !== asked.rev && asked === last && !isRunning) set({ isApart: true });
    },
    idle: () => running,
  };
}
