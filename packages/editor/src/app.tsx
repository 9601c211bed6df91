import { type DragEvent, useEffect, useState } from "react";
import { FirstPage } from "./panels/first-page.tsx";
import { Margin } from "./panels/margin.tsx";
import { Problems } from "./panels/problems.tsx";
import { scenarios } from "./session/scenarios.ts";
import { useSession } from "./session/use-session.ts";
import { Sheet } from "./sheet/sheet.tsx";

type Theme = "light" | "dark";

const preferred = (): Theme => (window.matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");

/** The page: a top line, the sheet, the margin. */
export function App() {
  const { session, open, close } = useSession();
  const [picked, pick] = useState<string>();
  const [theme, setTheme] = useState<Theme>(preferred);
  useEffect(() => {
    document.documentElement.dataset.theme = theme;
  }, [theme]);
  useEffect(() => {
    const asked = /^#loom=([\w-]+)$/.exec(window.location.hash)?.[1];
    const scenario = scenarios.find((s) => s.id === asked);
    if (scenario) open(scenario.title, scenario.text);
  }, [open]);
  const openAnother = (name: string, text: string) => {
    pick(undefined);
    open(name, text);
  };
  const drop = async (event: DragEvent) => {
    event.preventDefault();
    const file = event.dataTransfer.files[0];
    if (file !== undefined) openAnother(file.name, await file.text());
  };
  const finding = session.report?.findings.find((f) => f.id === picked);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a file may be dropped anywhere; the button on the first page does the same
    <div className="page" onDragOver={(e) => e.preventDefault()} onDrop={drop}>
      <header className="top">
        <button type="button" className="mark" onClick={close} title="Back to the first page">
          <svg viewBox="0 0 24 24" width="22" height="22" aria-hidden="true">
            <path d="M2 17c6 0 5-10 10-10s4 10 10 10" />
            <circle cx="12" cy="7" r="2.4" />
          </svg>
          Loomproof
        </button>
        {session.name !== undefined && <span className="name">{session.loom?.title || session.name}</span>}
        <span className="space" />
        <button type="button" className="plain" onClick={() => setTheme(theme === "light" ? "dark" : "light")}>
          {theme === "light" ? "Dark" : "Light"}
        </button>
      </header>
      {session.name === undefined && <FirstPage open={openAnother} />}
      {session.name !== undefined && session.problems.length > 0 && (
        <Problems name={session.name} problems={session.problems} close={close} />
      )}
      {session.failure !== undefined && (
        <main className="problems">
          <h1>Something in the tool went wrong</h1>
          <p>{session.failure}</p>
          <p>Your file is as it was. Please report this with the file.</p>
        </main>
      )}
      {session.loom !== undefined && session.failure === undefined && (
        <div className="table">
          <Sheet loom={session.loom} placed={session.placed} finding={finding} theme={theme} />
          <Margin report={session.report} picked={picked} pick={pick} />
        </div>
      )}
      {session.name !== undefined &&
        session.loom === undefined &&
        session.problems.length === 0 &&
        session.failure === undefined && <p className="drawing-wait">Opening {session.name} …</p>}
    </div>
  );
}
