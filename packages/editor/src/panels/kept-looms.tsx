import { useEffect, useRef, useState } from "react";
import { draftAddress } from "../session/address.ts";
import type { DraftHead } from "../session/draft.ts";
import { mayBeCleared } from "../session/room.ts";
import { headWords, nameOf } from "./kept-words.ts";

interface Props {
  readonly drafts: readonly DraftHead[];
  readonly remove: (id: string) => void;
}

/** Every loom that this browser keeps, and a way to delete one. */
export function KeptLooms({ drafts, remove }: Props) {
  const [asked, ask] = useState<string>();
  const [isShaky, setShaky] = useState(false);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    let isGone = false;
    void mayBeCleared().then((may) => {
      if (!isGone) setShaky(may);
    });
    return () => {
      isGone = true;
    };
  }, []);
  if (drafts.length === 0) return null;
  const now = Date.now();
  return (
    <section className="kept" aria-labelledby="kept-looms">
      <h2 id="kept-looms" ref={heading} tabIndex={-1}>
        Kept in this browser
      </h2>
      <ul>
        {drafts.map((head) => (
          <li key={head.id}>
            <a href={draftAddress(head.id)}>
              <strong>{nameOf(head)}</strong>
              <span>{headWords(head, now)}</span>
            </a>
            {asked === head.id ? (
              <span className="kept-ask" role="alert">
                Delete it for good?
                <button
                  type="button"
                  className="plain"
                  onClick={() => {
                    // The keyboard stays in the list when the row is gone.
                    heading.current?.focus();
                    remove(head.id);
                  }}
                >
                  Delete
                </button>
                <button
                  type="button"
                  className="word"
                  // biome-ignore lint/a11y/noAutofocus: the button that asked is gone, and this one harms nothing
                  autoFocus
                  onClick={() => ask(undefined)}
                >
                  Keep
                </button>
              </span>
            ) : (
              <button type="button" className="word" aria-label={`Delete ${nameOf(head)}`} onClick={() => ask(head.id)}>
                Delete
              </button>
            )}
          </li>
        ))}
      </ul>
      {isShaky && (
        <p className="kept-room">
          This browser may clear them when it runs short of room. Save a file of what you cannot lose.
        </p>
      )}
    </section>
  );
}
