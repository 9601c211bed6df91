import { type ReactNode, useRef } from "react";

interface Props {
  readonly take: (file: File) => void;
  readonly className: string;
  readonly children: ReactNode;
}

/** Opens a file from the disk. Dropping one anywhere on the page does the same. */
export function OpenFile({ take, className, children }: Props) {
  const field = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className={className} onClick={() => field.current?.click()}>
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
