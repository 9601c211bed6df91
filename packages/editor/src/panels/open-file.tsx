import { type ReactNode, useRef } from "react";
import { chooseFile } from "../session/files.ts";
import type { TakeFile } from "../session/read-file.ts";

interface Props {
  readonly take: TakeFile;
  readonly className: string;
  readonly children: ReactNode;
}

/** Opens a file from the disk. Dropping one anywhere on the page does the same. */
export function OpenFile({ take, className, children }: Props) {
  const field = useRef<HTMLInputElement>(null);
  const choose = async () => {
    const chosen = await chooseFile();
    if (chosen === "no dialog") field.current?.click();
    else if (chosen !== "cancelled") take(await chosen.getFile(), chosen);
  };
  return (
    <>
      <button type="button" className={className} onClick={() => void choose()}>
        {children}
      </button>
      <input
        ref={field}
        type="file"
        accept=".json,application/json"
        hidden
        aria-label="Loom file"
        onChange={({ target }) => {
          const file = target.files?.[0];
          if (file !== undefined) take(file);
          target.value = "";
        }}
      />
    </>
  );
}
