import { write } from "@loomproof/netlist";
import { useCallback, useMemo, useState } from "react";
import type { Documents } from "./documents.ts";
import { type Draft, fileName, withSaved } from "./draft.ts";
import { chooseTarget, download, type Written, writeFile } from "./files.ts";

export interface Saving {
  readonly save: () => void;
  readonly saveAs: () => void;
  /** The file was changed on the disk since it was read or saved here: nothing is written before a person decides. */
  readonly isChangedOnDisk: boolean;
  readonly saveOver: () => void;
  readonly leaveDisk: () => void;
}

/** Saves the open loom to its file, to another one, or as a download where the browser writes no files. */
export function useSaving(documents: Documents, now: () => number, tell: (says: string | undefined) => void): Saving {
  // For which draft it was found: another one that is opened meanwhile has nothing to do with it.
  const [changed, setChanged] = useState<string>();
  const after = useCallback(
    (draft: Draft, text: string, handle: FileSystemFileHandle, written: Written) => {
      setChanged(written === "changed" ? draft.id : undefined);
      tell(WORDS[written]?.(handle.name));
      if (written !== "written" || documents.desk().draft?.id !== draft.id) return;
      documents.replace(
        (d) => withSaved(d, draft, handle.name, "file", now()),
        { handle, text },
        `Saved to ${handle.name}`,
      );
    },
    [documents, now, tell],
  );
  const saveAs = useCallback(async () => {
    const { draft } = documents.desk();
    if (draft === undefined) return;
    const text = write(draft.history.loom);
    const name = draft.name || fileName(draft.history.loom.title ?? "");
    const target = await chooseTarget(name);
    if (target === "cancelled") return;
    if (target !== "no dialog") {
      after(draft, text, target, await writeFile(target, text, undefined));
      return;
    }
    download(name, text);
    documents.replace((d) => withSaved(d, draft, name, "download", now()), undefined, `Saved as a download: ${name}`);
  }, [documents, now, after]);
  const save = useCallback(
    async (isOver: boolean) => {
      const { draft, file } = documents.desk();
      if (draft === undefined) return;
      if (file === undefined) {
        await saveAs();
        return;
      }
      const text = write(draft.history.loom);
      after(draft, text, file.handle, await writeFile(file.handle, text, isOver ? undefined : file.text));
    },
    [documents, after, saveAs],
  );
  return useMemo(
    () => ({
      save: () => void save(false),
      saveAs: () => void saveAs(),
      isChangedOnDisk: changed !== undefined && changed === documents.desk().draft?.id,
      saveOver: () => void save(true),
      leaveDisk: () => setChanged(undefined),
    }),
    [save, saveAs, changed, documents],
  );
}

const WORDS: Partial<Readonly<Record<Written, (name: string) => string>>> = {
  gone: (name) => `${name} is no longer where it was. Nothing was saved; choose another place with Ctrl+Shift+S.`,
  refused: (name) => `The browser may not write ${name}. Nothing was saved; choose another place with Ctrl+Shift+S.`,
};
