import { useRef, useState } from "react";

interface Props {
  readonly title: string;
  /** Stands there when the loom has no title. */
  readonly instead: string;
  /** Undefined where nothing is edited. Says why it cannot be. */
  readonly rename: ((title: string) => string | undefined) | undefined;
}

/** The loom's title; on a press a field to change it. Enter or leaving it takes what was typed, Escape does not. */
export function Title({ title, instead, rename }: Props) {
  const [typed, setTyped] = useState<string>();
  const [refused, setRefused] = useState<string>();
  const button = useRef<HTMLButtonElement>(null);
  const isLeft = useRef(false);
  if (rename === undefined) return <strong>{title || instead}</strong>;
  if (typed === undefined)
    return (
      <button
        ref={button}
        type="button"
        className="title"
        title="Change the title"
        onClick={() => {
          isLeft.current = false;
          setTyped(title);
        }}
      >
        {title || instead}
      </button>
    );
  const end = (take: boolean, byKey: boolean) => {
    // Taking the field away leaves it once more.
    if (isLeft.current) return;
    const says = take && typed !== title ? rename(typed) : undefined;
    setRefused(says);
    if (says !== undefined) return;
    isLeft.current = true;
    setTyped(undefined);
    if (byKey) requestAnimationFrame(() => button.current?.focus());
  };
  return (
    <>
      <input
        className="title-field"
        aria-label="Title of the loom"
        aria-invalid={refused !== undefined}
        aria-describedby={refused === undefined ? undefined : "title-refused"}
        value={typed}
        // biome-ignore lint/a11y/noAutofocus: it was asked for by a press on the title
        autoFocus
        onFocus={({ target }) => target.select()}
        onChange={({ target }) => setTyped(target.value)}
        onBlur={() => end(true, false)}
        onKeyDown={({ key }) => {
          if (key === "Enter") end(true, true);
          if (key === "Escape") end(false, true);
        }}
      />
      {refused !== undefined && (
        <em id="title-refused" role="alert">
          {refused}
        </em>
      )}
    </>
  );
}
