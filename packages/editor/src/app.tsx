import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { FirstPage } from "./panels/first-page.tsx";
import { Guard } from "./panels/guard.tsx";
import { nameOf } from "./panels/kept-words.ts";
import { Problems } from "./panels/problems.tsx";
import { Questions } from "./panels/questions.tsx";
import { TopLine } from "./panels/top-line.tsx";
import { Trouble } from "./panels/trouble.tsx";
import { readFile, type TakeFile } from "./session/read-file.ts";
import { sheetsOf } from "./session/sheets.ts";
import { useArrange } from "./session/use-arrange.ts";
import { useChecking } from "./session/use-checking.ts";
import { useDocument } from "./session/use-document.ts";
import { useDrop } from "./session/use-drop.ts";
import { useKeys } from "./session/use-keys.ts";
import { useNarrow } from "./session/use-narrow.ts";
import { useRegions } from "./session/use-regions.ts";
import { useTheme } from "./session/use-theme.ts";
import { Table } from "./table.tsx";

/** The page: the first page, a loom on its table, or why a file cannot be opened. */
export function App() {
  const [alert, setAlert] = useState<string>();
  const [sheets] = useState(sheetsOf);
  const page = useDocument(setAlert, sheets.finish);
  const { document, desk, undo, redo, save, saveAs, openFile, goHome, dismiss, remove } = page;
  const { session, stop, again } = useChecking(document);
  // A drawing that comes late may be that of the loom before.
  sheets.take(session.opened === document?.opened ? session.drawn : undefined);
  const placed = document && sheets.placedOf(document.loom, document.resolved);
  const { arrange, isArranging } = useArrange(document?.loom, page.edit, setAlert);
  const { theme, turn } = useTheme();
  const isNarrow = useNarrow();

  const name = document && nameOf(document);
  useEffect(() => {
    window.document.title = name === undefined ? "Loomproof" : `${name} · Loomproof`;
  }, [name]);
  const newest = useRef(0);
  const takeFile: TakeFile = useCallback(
    (file, handle) => {
      newest.current += 1;
      const asked = newest.current;
      void readFile(file).then((read) => {
        if (asked !== newest.current) return;
        setAlert(read.ok ? undefined : read.says);
        if (read.ok) openFile(file.name, read.text, handle);
      });
    },
    [openFile],
  );
  const isOver = useDrop(takeFile);
  useRegions();
  const isOpen = document !== undefined;
  useKeys(
    useMemo(
      () => (isOpen && !isNarrow ? { undo, redo, save, saveAs } : undefined),
      [isOpen, isNarrow, undo, redo, save, saveAs],
    ),
  );

  const body = () => {
    if (desk.refused !== undefined)
      return (
        <Problems
          name={desk.refused.name}
          problems={desk.refused.problems}
          before={document && (document.name || nameOf(document))}
          back={dismiss}
        />
      );
    if (document === undefined)
      return (
        <FirstPage drafts={desk.drafts} takeFile={takeFile} remove={(id) => void remove(id)} missing={desk.missing} />
      );
    if (session.undrawn !== undefined && placed === undefined) return <Trouble says={session.undrawn} close={goHome} />;
    const current = document.isFresh && document.example !== undefined ? document.example : document.id;
    return (
      <Table
        document={document}
        session={session}
        placed={placed}
        edit={page.edit}
        theme={theme}
        choices={{ drafts: desk.drafts, takeFile, current }}
        stop={stop}
        again={again}
      />
    );
  };
  return (
    <div className="page" data-kept={document?.kept}>
      <TopLine
        page={page}
        isNarrow={isNarrow}
        theme={theme}
        turnTheme={turn}
        goHome={goHome}
        takeFile={takeFile}
        arrange={arrange}
        isArranging={isArranging}
      />
      <p className="unseen" role="status">
        {desk.said}
      </p>
      {alert !== undefined && (
        <p className="alert" role="alert">
          {alert}
          <button type="button" className="word" onClick={() => setAlert(undefined)}>
            Close
          </button>
        </p>
      )}
      <Questions page={page} />
      <Guard key={desk.opened} close={goHome}>
        {body()}
      </Guard>
      {isOver && (
        <div className="drop-here">
          <p>Let go to open the loom</p>
        </div>
      )}
    </div>
  );
}
