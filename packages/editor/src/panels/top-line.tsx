import { setTitle } from "@loomproof/netlist";
import type { TakeFile } from "../session/read-file.ts";
import type { DocumentOfPage } from "../session/use-document.ts";
import { keyWords } from "../session/use-keys.ts";
import type { PageTheme } from "../sheet/drawing.tsx";
import { nameOf, placeWords } from "./kept-words.ts";
import { OpenFile } from "./open-file.tsx";
import { Title } from "./title.tsx";

interface Props {
  readonly page: DocumentOfPage;
  /** Narrow pages show and do not edit. */
  readonly isNarrow: boolean;
  readonly theme: PageTheme;
  readonly turnTheme: () => void;
  readonly goHome: () => void;
  readonly takeFile: TakeFile;
  readonly arrange: () => void;
  readonly isArranging: boolean;
}

/** Mark and name, the loom with where it is kept, and what can always be done. */
export function TopLine({ page, isNarrow, theme, turnTheme, goHome, takeFile, arrange, isArranging }: Props) {
  const { document, edit, undo, redo, save } = page;
  return (
    <header className="top">
      <button type="button" className="mark" onClick={goHome} title="Back to the first page">
        <svg viewBox="0 0 24 24" width="26" height="26" aria-hidden="true">
          <path d="M1 7h6q3 0 3-5M1 12h6M1 17h6q3 0 3 5M23 7h-6q-3 0-3-5M23 12h-6M23 17h-6q-3 0-3 5M7 7q5 0 5 5t-5 5M17 7q-5 0-5 5t5 5" />
        </svg>
        <span>Loomproof</span>
      </button>
      {document !== undefined && (
        <div className="name">
          <Title
            key={document.opened}
            title={document.title}
            instead={nameOf(document)}
            rename={
              isNarrow
                ? undefined
                : (title) => edit(`Title: ${title.trim() || "none"}`, (loom) => setTitle(loom, title))
            }
          />
          <span>
            {document.title && document.name && !isNarrow ? `${document.name}, ` : ""}
            {placeWords(document)}
          </span>
        </div>
      )}
      <span className="space" />
      {document !== undefined && !isNarrow && (
        <>
          <Step word="Undo" says={document.undoSays} act={undo} keys={keyWords("Z")} />
          <Step word="Redo" says={document.redoSays} act={redo} keys={keyWords("Shift+Z")} />
          <button
            type="button"
            className="word"
            onClick={arrange}
            aria-disabled={isArranging || document.loom.parts.length === 0}
            title="Lays the whole drawing out afresh"
          >
            {isArranging ? "Arranging …" : "Arrange"}
          </button>
          <OpenFile className="word" take={takeFile}>
            Open
          </OpenFile>
          <button type="button" className="word" onClick={save} title={`Save to a file (${keyWords("S")})`}>
            Save
          </button>
        </>
      )}
      <button type="button" className="word" onClick={turnTheme}>
        {theme === "light" ? "Dark" : "Light"}
      </button>
    </header>
  );
}

interface StepProps {
  readonly word: "Undo" | "Redo";
  readonly says: string | undefined;
  readonly act: () => void;
  readonly keys: string;
}

/** Undo or Redo. It stays under the keyboard when there is nothing left to take back. */
function Step({ word, says, act, keys }: StepProps) {
  const what = says === undefined ? `Nothing to ${word.toLowerCase()}` : `${word}: ${says}`;
  return (
    <button
      type="button"
      className="word"
      aria-disabled={says === undefined}
      aria-label={what}
      title={`${what} (${keys})`}
      onClick={act}
    >
      {word}
    </button>
  );
}
