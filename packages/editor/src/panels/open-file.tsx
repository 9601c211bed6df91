import { type ChangeEvent, useRef } from "react";

/** Opens a file from the disk. Dropping one anywhere on the page does the same. */
export function OpenFile({ open }: { readonly open: (name: string, text: string) => void }) {
  const field = useRef<HTMLInputElement>(null);
  const take = async (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    if (file !== undefined) open(file.name, await file.text());
    event.target.value = "";
  };
  return (
    <>
      <button type="button" className="choice" onClick={() => field.current?.click()}>
        <strong>A loom file</strong>
        <span>Choose NAME.loom.json, or drop it on this page.</span>
      </button>
      <input ref={field} type="file" accept=".json,application/json" hidden aria-label="Loom file" onChange={take} />
    </>
  );
}
