import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { FirstPage } from "./panels/first-page.tsx";
import { Guard } from "./panels/guard.tsx";
import { Problems } from "./panels/problems.tsx";
import { TopLine } from "./panels/top-line.tsx";
import { Trouble } from "./panels/trouble.tsx";
import { addressOf, askedFor, clearAddress } from "./session/address.ts";
import { type Kept, keep, lastKept } from "./session/kept.ts";
import { readFile } from "./session/read-file.ts";
import { scenarios } from "./session/scenarios.ts";
import type { Opening } from "./session/session.ts";
import { useDrop } from "./session/use-drop.ts";
import { useSession } from "./session/use-session.ts";
import { useTheme } from "./session/use-theme.ts";
import { Table } from "./table.tsx";

/** The page: the first page, a loom on its table, or why a file cannot be opened. */
export function App() {
  const { session, open, stop, close } = useSession();
  const { opening, loom, problems, failure } = session;
  const { theme, turn } = useTheme();
  const [last, setLast] = useState<Kept>();
  const [missing, setMissing] = useState<string>();
  const [alert, setAlert] = useState<string>();
  const before = useRef<Opening>(undefined);

  useEffect(() => {
    void lastKept().then(setLast);
  }, []);
  useEffect(() => {
    if (loom === undefined || opening === undefined) return;
    before.current = opening;
    if (opening.isExample) return;
    const kept = { name: opening.name, title: loom.title, text: opening.text };
    setLast(kept);
    void keep(kept);
  }, [loom, opening]);
  useEffect(() => {
    const follow = () => {
      const asked = askedFor();
      const scenario = scenarios.find((s) => s.id === asked);
      setMissing(scenario === undefined ? asked : undefined);
      if (scenario === undefined) close();
      else open({ name: scenario.name, text: scenario.text, isExample: true });
    };
    follow();
    window.addEventListener("hashchange", follow);
    return () => window.removeEventListener("hashchange", follow);
  }, [open, close]);

  const name = loom?.title || opening?.name;
  useEffect(() => {
    document.title = name === undefined ? "Loomproof" : `${name} · Loomproof`;
  }, [name]);
  const openFile = useCallback(
    (name: string, text: string) => {
      clearAddress();
      setMissing(undefined);
      open({ name, text, isExample: false });
    },
    [open],
  );
  const takeFile = useCallback(
    (file: File) => {
      void readFile(file).then((read) => {
        setAlert(read.ok ? undefined : read.says);
        if (read.ok) openFile(file.name, read.text);
      });
    },
    [openFile],
  );
  const isOver = useDrop(takeFile);
  const goHome = () => {
    clearAddress();
    close();
  };
  const goBack = () => {
    const former = before.current;
    const example = former?.isExample ? scenarios.find((s) => s.name === former.name) : undefined;
    if (example !== undefined) window.location.hash = addressOf(example.id);
    else if (former !== undefined) open(former);
    else goHome();
  };
  const choices = useMemo(
    () => ({
      last,
      takeFile,
      takeLast: () => {
        if (last !== undefined) openFile(last.name, last.text);
      },
    }),
    [last, takeFile, openFile],
  );

  const body = () => {
    if (opening === undefined) return <FirstPage {...choices} missing={missing} />;
    if (failure !== undefined) return <Trouble says={failure} close={goHome} />;
    if (problems.length > 0)
      return <Problems name={opening.name} problems={problems} before={before.current?.name} back={goBack} />;
    if (loom === undefined) return <p className="drawing-wait">Opening {opening.name} …</p>;
    return (
      <Table session={{ ...session, loom }} theme={theme} choices={choices} stop={stop} again={() => open(opening)} />
    );
  };
  return (
    <div className="page">
      <TopLine
        title={loom?.title}
        opening={opening}
        theme={theme}
        turnTheme={turn}
        goHome={goHome}
        takeFile={takeFile}
      />
      {alert !== undefined && (
        <p className="alert" role="alert">
          {alert}
          <button type="button" className="word" onClick={() => setAlert(undefined)}>
            Close
          </button>
        </p>
      )}
      <Guard key={session.rev} close={goHome}>
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
