import { type KeyboardEvent, useId, useState } from "react";
import { Frame } from "./frame.tsx";
import type { Refusal } from "./refusal.ts";

export interface LineProps {
  readonly title: string;
  readonly says?: string | undefined;
  readonly mark?: string | undefined;
  readonly value: string;
  readonly placeholder?: string | undefined;
  /** Takes the text, or says why not. */
  readonly commit: (text: string) => Refusal | undefined;
  /** The id of the field, for a key that leads to it. */
  readonly id?: string;
  /** Words that it may be. */
  readonly words?: readonly string[];
  /** Without its name above, in a table. */
  readonly isBare?: boolean;
}

/**
 * A line of text. Enter or leaving it commits, Esc puts it back. What is refused stays as typed, with the reason below it.
 */
export function LineField({ id: own, title, says, mark, value, placeholder, commit, words, isBare }: LineProps) {
  const made = useId();
  const id = own ?? made;
  const [draft, type] = useState<string>();
  const [refusal, refuse] = useState<Refusal>();
  // Another value came from elsewhere, such as Undo: what was being typed was about the old one.
  const [seen, see] = useState(value);
  if (seen !== value) {
    see(value);
    type(undefined);
    refuse(undefined);
  }
  const end = () => {
    type(undefined);
    refuse(undefined);
  };
  const take = (text: string) => {
    if (text === value) return end();
    const why = commit(text);
    if (why === undefined) return end();
    type(text);
    refuse(why);
  };
  const press = (event: KeyboardEvent) => {
    if (event.key === "Enter") {
      event.preventDefault();
      const [first] = refusal?.offers ?? [];
      take(first ?? draft ?? value);
    } else if (event.key === "Escape" && draft !== undefined) {
      event.preventDefault();
      event.stopPropagation();
      end();
    }
  };
  const field = (
    <input
      type="text"
      id={id}
      value={draft ?? value}
      placeholder={placeholder}
      spellCheck={false}
      autoComplete="off"
      list={words && `${id}-words`}
      aria-label={isBare ? title : undefined}
      aria-invalid={refusal !== undefined}
      aria-describedby={refusal !== undefined || mark !== undefined ? `${id}-says` : undefined}
      aria-description={says}
      onChange={(e) => {
        type(e.target.value);
        refuse(undefined);
      }}
      onKeyDown={press}
      onBlur={() => draft !== undefined && refusal === undefined && take(draft)}
    />
  );
  const more = (
    <>
      {words && (
        <datalist id={`${id}-words`}>
          {words.map((w) => (
            <option key={w} value={w} />
          ))}
        </datalist>
      )}
      {refusal?.offers && (
        <p className="offers">
          {refusal.offers.map((offer) => (
            <button type="button" className="chip" key={offer} onClick={() => take(offer)}>
              {offer}
            </button>
          ))}
        </p>
      )}
    </>
  );
  return (
    <Frame id={id} title={isBare ? "" : title} says={says} mark={mark} error={refusal?.says}>
      {field}
      {more}
    </Frame>
  );
}
