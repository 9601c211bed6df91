import { addressOf, BLANK, draftAddress } from "../session/address.ts";
import type { DraftHead } from "../session/draft.ts";
import type { TakeFile } from "../session/read-file.ts";
import { scenarios } from "../session/scenarios.ts";
import { headWords, nameOf } from "./kept-words.ts";
import { OpenFile } from "./open-file.tsx";

interface Props {
  /** Newest first. */
  readonly drafts: readonly DraftHead[];
  readonly takeFile: TakeFile;
  /** The loom that is open: its draft, or the example that nobody has edited. */
  readonly current?: string | undefined;
}

/** What can be opened: a blank loom, the last one, a file, an example. */
export function Choices({ drafts, takeFile, current }: Props) {
  const last = drafts.find((d) => d.id !== current);
  return (
    <ul className="choices">
      <li className="wide-only">
        <button
          type="button"
          className="choice"
          onClick={() => {
            window.location.hash = BLANK;
          }}
        >
          <strong>A blank loom</strong>
          <span>12 V, with nothing in it yet.</span>
        </button>
      </li>
      {last !== undefined && (
        <li>
          <a className="choice" href={draftAddress(last.id)}>
            <strong>{nameOf(last)}</strong>
            <span>The last one: {headWords(last, Date.now())}. Kept in this browser.</span>
          </a>
        </li>
      )}
      <li>
        <OpenFile className="choice" take={takeFile}>
          <strong>Open a loom file</strong>
          <span>Choose a file that ends in .loom.json, or drop it on this page.</span>
        </OpenFile>
      </li>
      {scenarios.map((s) => (
        <li key={s.id}>
          <a className="choice" href={addressOf(s.id)} aria-current={s.id === current ? "true" : undefined}>
            <strong>{s.title}</strong>
            <span>{s.says}</span>
            <em>Invented</em>
          </a>
        </li>
      ))}
    </ul>
  );
}
