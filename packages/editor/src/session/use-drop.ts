import { useEffect, useState } from "react";
import type { TakeFile } from "./read-file.ts";

const carriesFile = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") ?? false;

/** Not yet in the types of the DOM. */
interface Dropped {
  readonly getAsFileSystemHandle?: () => Promise<FileSystemHandle | null>;
}

/** Takes a file that is dropped anywhere on the page. Says whether one is held over it. */
export function useDrop(take: TakeFile): boolean {
  const [isOver, setOver] = useState(false);
  useEffect(() => {
    // Entering a child comes before leaving its parent: only the outermost leave ends it.
    let depth = 0;
    const enter = (event: DragEvent) => {
      if (!carriesFile(event)) return;
      depth += 1;
      setOver(true);
    };
    const over = (event: DragEvent) => {
      if (carriesFile(event)) event.preventDefault();
    };
    const leave = (event: DragEvent) => {
      if (!carriesFile(event)) return;
      depth = Math.max(0, depth - 1);
      if (depth === 0) setOver(false);
    };
    const drop = (event: DragEvent) => {
      event.preventDefault();
      depth = 0;
      setOver(false);
      const [file] = event.dataTransfer?.files ?? [];
      if (file === undefined) return;
      // Asked for now: what was dropped is gone when this returns.
      const [item] = event.dataTransfer?.items ?? [];
      const asked = (item as Dropped | undefined)?.getAsFileSystemHandle?.();
      void Promise.resolve(asked)
        .catch(() => undefined)
        .then((handle) => take(file, handle?.kind === "file" ? (handle as FileSystemFileHandle) : undefined));
    };
    const all = { dragenter: enter, dragover: over, dragleave: leave, drop } as const;
    for (const [name, listener] of Object.entries(all)) window.addEventListener(name as keyof typeof all, listener);
    return () => {
      for (const [name, listener] of Object.entries(all))
        window.removeEventListener(name as keyof typeof all, listener);
    };
  }, [take]);
  return isOver;
}
