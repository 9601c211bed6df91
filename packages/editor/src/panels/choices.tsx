import { addressOf } from "../session/address.ts";
import type { Kept } from "../session/kept.ts";
import { scenarios } from "../session/scenarios.ts";
import { OpenFile } from "./open-file.tsx";

interface Props {
  readonly last: Kept | undefined;
  readonly takeFile: (file: File) => void;
  readonly takeLast: () => void;
  /** File of the loom that is open. */
  readonly current?: string | undefined;
}

/** What can be opened: the last loom, a file, an example. */
export function Choices({ last, takeFile, takeLast, current }: Props) {
  return (
    <ul className="choices">
      {last !== undefined && last.name !== current && (
        <li>
          <button type="button" className="choice" onClick={takeLast}>
            <strong>{last.title || last.name}</strong>
            <span>The last one: {last.name}, kept in this browser.</span>
          </button>
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
          <a className="choice" href={addressOf(s.id)} aria-current={s.name === current ? "true" : undefined}>
            <strong>{s.title}</strong>
            <span>{s.says}</span>
            <em>Invented</em>
          </a>
        </li>
      ))}
    </ul>
  );
}
