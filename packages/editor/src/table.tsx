import { scene as sceneOf } from "@loomproof/drawing";
import type { ResolvedLoom } from "@loomproof/netlist";
import { useMemo, useState } from "react";
import { editingTabs } from "./editing-tabs.tsx";
import { Checking } from "./panels/checking.tsx";
import { Choices } from "./panels/choices.tsx";
import { Counts, Findings, toldOf } from "./panels/findings.tsx";
import type { Picked } from "./session/editing.ts";
import type { Kept } from "./session/kept.ts";
import type { Session } from "./session/session.ts";
import { useLocalLoom } from "./session/use-local-loom.ts";
import { useNarrow } from "./session/use-narrow.ts";
import { Camera } from "./sheet/camera.ts";
import type { PageTheme } from "./sheet/drawing.tsx";
import { marksOf } from "./sheet/marks.ts";
import { Sheet } from "./sheet/sheet.tsx";
import { PathList } from "./tray/path-list.tsx";
import { Story } from "./tray/story.tsx";
import { type Tab, Tray } from "./tray/tray.tsx";
import { Zoom } from "./tray/zoom.tsx";

interface Props {
  readonly session: Session & { readonly loom: ResolvedLoom };
  readonly theme: PageTheme;
  readonly choices: {
    readonly last: Kept | undefined;
    readonly takeFile: (file: File) => void;
    readonly takeLast: () => void;
  };
  readonly stop: () => void;
  readonly again: () => void;
}

/** A loom on the table: sheet, margin and tray. */
export function Table({ session, theme, choices, stop, again }: Props) {
  const { loom, placed, report, opening, progress, isStopped } = session;
  const [camera] = useState(() => new Camera());
  const [picked, pick] = useState<string>();
  const [pointed, point] = useState<readonly string[]>([]);
  const isNarrow = useNarrow();
  const local = useLocalLoom(opening?.text ?? "");
  const [chosen, choose] = useState<Picked>();
  const [gone, tellGone] = useState<string>();
  const [tab, setTab] = useState(isNarrow ? "findings" : "story");
  const finding = report?.findings.find((f) => f.id === picked);
  const scene = useMemo(
    () => placed && sceneOf(loom, placed, finding === undefined ? undefined : marksOf(loom, finding)),
    [loom, placed, finding],
  );
  const told = report === undefined ? undefined : toldOf(report);
  const findings =
    report === undefined ? (
      <Checking progress={progress} isStopped={isStopped} isDrawn={placed !== undefined} stop={stop} again={again} />
    ) : (
      <Findings
        report={report}
        scene={scene}
        picked={picked}
        pick={(id) => {
          pick(id);
          point([]);
        }}
        point={point}
      />
    );
  const tabs: readonly Tab[] = [
    ...(isNarrow ? [{ id: "findings", title: "Findings", count: told?.length, body: findings }] : []),
    { id: "story", title: "Story", body: <Story loom={loom} finding={finding} /> },
    { id: "path", title: "Path", body: <PathList loom={loom} finding={finding} point={point} /> },
    ...(isNarrow || local === undefined
      ? []
      : editingTabs({ ...local, theme, chosen, choose, show: setTab, told: gone, tell: tellGone })),
    { id: "looms", title: "Looms", body: <Choices {...choices} current={opening?.name} /> },
  ];
  const shown = tabs.some((t) => t.id === tab) ? tab : "story";
  return (
    <main className="table">
      <Sheet
        title={loom.title}
        wait={isStopped ? "Not drawn." : "Drawing …"}
        scene={scene}
        finding={finding}
        theme={theme}
        camera={camera}
        pointed={pointed}
      >
        {isNarrow && (
          <button type="button" className="fit" onClick={camera.fit}>
            Fit
          </button>
        )}
      </Sheet>
      <Tray
        tabs={tabs}
        shown={shown}
        show={setTab}
        isNarrow={isNarrow}
        tools={isNarrow ? null : <Zoom camera={camera} />}
      />
      {!isNarrow && (
        <aside className="margin" aria-label="Findings" aria-busy={report === undefined && !isStopped}>
          <header>
            <h2>Findings</h2>
            {told !== undefined && <Counts findings={told} />}
          </header>
          {findings}
        </aside>
      )}
    </main>
  );
}
