import type { KeyboardEvent, RefObject } from "react";

interface Props {
  readonly field: RefObject<HTMLInputElement | null>;
  readonly title: string;
  readonly placeholder: string;
  readonly text: string;
  readonly type: (text: string) => void;
  /** Into what was found. */
  readonly down: () => void;
  readonly enter?: () => void;
}

/** A field over a list that narrows it: arrow down leads into the list, Esc empties the field. */
export function FindField({ field, title, placeholder, text, type, down, enter }: Props) {
  const press = (event: KeyboardEvent) => {
    if (event.key === "ArrowDown") {
      event.preventDefault();
      down();
    } else if (event.key === "Enter") enter?.();
    else if (event.key === "Escape" && text !== "") {
      event.preventDefault();
      type("");
    }
  };
  return (
    <input
      ref={field}
      type="search"
      aria-label={title}
      placeholder={placeholder}
      value={text}
      onChange={(e) => type(e.target.value)}
      onKeyDown={press}
    />
  );
}
