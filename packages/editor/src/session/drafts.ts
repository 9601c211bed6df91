import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import { type Draft, type DraftHead, type DraftRecord, headOf } from "./draft.ts";
import { type Step, sharedSteps, stepsOf } from "./history.ts";
import { askToStay } from "./room.ts";

// Drafts in the browser's own store, one record a step, so that an edit is a small write however long the history is.

/** A draft that this tab wrote or read last, and under which rev. What it writes next is compared with that. */
export interface Kept {
  readonly draft: Draft;
  readonly rev: string;
}

/** A file on the disk that a draft belongs to. */
export interface FileOnDisk {
  readonly handle: FileSystemFileHandle;
  /** Its text when it was last read or written. */
  readonly text: string;
}

/** Every method rejects when the browser keeps nothing. */
export interface DraftStore {
  /** Newest first. */
  readonly list: () => Promise<readonly DraftHead[]>;
  readonly read: (id: string) => Promise<DraftRecord | undefined>;
  /**
   * Brings what is kept from `was` to `now`, all or nothing, and waits until it is on the disk. "other": another tab has
   * written meanwhile; then nothing is changed. A draft that was deleted meanwhile is kept again.
   */
  readonly commit: (was: Kept | undefined, now: Draft, rev: string) => Promise<"kept" | "other">;
  readonly rev: (id: string) => Promise<string | undefined>;
  readonly remove: (id: string) => Promise<void>;
  readonly file: (id: string) => Promise<FileOnDisk | undefined>;
  readonly keepFile: (id: string, file: FileOnDisk) => Promise<void>;
}

interface Schema extends DBSchema {
  heads: { key: string; value: DraftHead };
  bases: { key: string; value: string };
  steps: { key: [string, number]; value: Step };
  files: { key: string; value: FileOnDisk };
}

const STRICT = { durability: "strict" } as const;
const stepsFrom = (id: string, first: number) => IDBKeyRange.bound([id, first], [id, Number.POSITIVE_INFINITY]);

export function draftStore(name = "loomproof"): DraftStore {
  let opened: Promise<IDBPDatabase<Schema>> | undefined;
  let hasAsked = false;
  const db = () => {
    opened ??= open(name, () => {
      opened = undefined;
    });
    return opened;
  };
  return {
    list: async () =>
      (await (await db()).getAll("heads")).toSorted((a, b) => b.edited - a.edited || (a.id < b.id ? -1 : 1)),
    read: async (id) => {
      const tx = (await db()).transaction(["heads", "bases", "steps"]);
      const [head, base, steps] = await Promise.all([
        tx.objectStore("heads").get(id),
        tx.objectStore("bases").get(id),
        tx.objectStore("steps").getAll(stepsFrom(id, 0)),
      ]);
      return head === undefined || base === undefined ? undefined : { head, base, steps };
    },
    commit: async (was, now, rev) => {
      const tx = (await db()).transaction(["heads", "bases", "steps"], "readwrite", STRICT);
      const there = await tx.objectStore("heads").get(now.id);
      if (there !== undefined && there.rev !== was?.rev) return "other";
      const steps = stepsOf(now.history);
      const first = there === undefined || was === undefined ? 0 : sharedSteps(stepsOf(was.draft.history), steps);
      const [heads, bases, all] = [tx.objectStore("heads"), tx.objectStore("bases"), tx.objectStore("steps")];
      await Promise.all([
        there === undefined && bases.put(now.base, now.id),
        there !== undefined && there.steps > first && all.delete(stepsFrom(now.id, first)),
        ...steps.slice(first).map((step, i) => all.put(step, [now.id, first + i])),
        heads.put(headOf(now, rev), now.id),
        tx.done,
      ]);
      // Not before there is something to lose.
      if (!hasAsked) void askToStay();
      hasAsked = true;
      return "kept";
    },
    rev: async (id) => (await (await db()).get("heads", id))?.rev,
    remove: async (id) => {
      const tx = (await db()).transaction(["heads", "bases", "steps", "files"], "readwrite", STRICT);
      await Promise.all([
        ...(["heads", "bases", "files"] as const).map((store) => tx.objectStore(store).delete(id)),
        tx.objectStore("steps").delete(stepsFrom(id, 0)),
        tx.done,
      ]);
    },
    file: async (id) => (await db()).get("files", id),
    keepFile: async (id, file) => {
      await (await db()).put("files", file, id);
    },
  };
}

async function open(name: string, lost: () => void): Promise<IDBPDatabase<Schema>> {
  try {
    const db = await openDB<Schema>(name, 1, {
      upgrade: (fresh) => {
        for (const store of ["heads", "bases", "steps", "files"] as const) fresh.createObjectStore(store);
      },
      // A newer page in another tab wants to change the store: let it.
      blocking: (_current, _blocked, event) => {
        (event.target as IDBDatabase).close();
        lost();
      },
      terminated: lost,
    });
    return db;
  } catch (error) {
    lost();
    throw error;
  }
}
