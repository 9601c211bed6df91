import type { Opening } from "../session/session.ts";
import type { PageTheme } from "../sheet/drawing.tsx";
import { OpenFile } from "./open-file.tsx";

interface Props {
  readonly title: string | undefined;
  readonly opening: Opening | undefined;
  readonly theme: PageTheme;
  readonly turnTheme: () => void;
  readonly goHome: () => void;
  readonly takeFile: (file: File) => void;
}

/** Mark and name, the loom with where it is kept, and what can always be done. */
export function TopLine({ title, opening, theme, turnTheme, goHome, takeFile }: Props) {
  return (
    <header className="top">
      <button type="button" className="mark" onClick={goHome} title="Back to the first page">
        <svg viewBox="0 0 24 24" width="26" height="26" aria-hidden="true">
          <path d="M1 7h6q3 0 3-5M1 12h6M1 17h6q3 0 3 5M23 7h-6q-3 0-3-5M23 12h-6M23 17h-6q-3 0-3 5M7 7q5 0 5 5t-5 5M17 7q-5 0-5 5t5 5" />
        </svg>
        <span>Loomproof</span>
      </button>
      {opening !== undefined && (
        <p className="name">
          <strong>{title || opening.name}</strong>
          <span>
            {title ? `${opening.name}, ` : ""}
            {opening.isExample ? "an invented example" : "read from this computer"}
          </span>
        </p>
      )}
      <span className="space" />
      {opening !== undefined && (
        <OpenFile className="plain wide-only" take={takeFile}>
          Open
        </OpenFile>
      )}
      <button type="button" className="word" onClick={turnTheme}>
        {theme === "light" ? "Dark" : "Light"}
      </button>
    </header>
  );
}
