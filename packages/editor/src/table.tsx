import type { Placed } from "@loomproof/drawing";
import { BEGUN_SHEET, scene as sceneOf } from "@loomproof/drawing";
import { useCallback, useMemo, useRef, useState } from "react";
import { editingTabs } from "./editing-tabs.tsx";
import { Checking, CheckingAgain } from "./panels/checking.tsx";
import { Choices } from "./panels/choices.tsx";
import { Counts, Findings, toldIn } from "./panels/findings.tsx";
import { pictured } from "./panels/shelf/pictured.ts";
import type { DraftHead } from "./session/draft.ts";
import type { Edit } from "./session/editing.ts";
import { isStale } from "./session/listed.ts";
import type { OpenDocument } from "./session/open-document.ts";
import type { TakeFile } from "./session/read-file.ts";
import type { Session } from "./session/session.ts";
import { touchedSince } from "./session/stale.ts";
import { useAnswer } from "./session/use-answer.ts";
import { electrical } from "./session/use-checking.ts";
import { useNarrow } from "./session/use-narrow.ts";
import { Camera } from "./sheet/camera.ts";
import type { PageTheme } from "./sheet/drawing.tsx";
import { marksOf, situationMarks } from "./sheet/marks.ts";
import { pencilOf } from "./sheet/pencil.ts";
import { Sheet } from "./sheet/sheet.tsx";
import { TerminalMenu } from "./sheet/terminal-menu.tsx";
import { useBoard } from "./sheet/use-board.ts";
import { useHand } from "./sheet/use-hand.ts";
import { Behaviour } from "./tray/behaviour/behaviour.tsx";
import type { Situation } from "./tray/behaviour/situation.ts";
import { PathList } from "./tray/path-list.tsx";
import { Story } from "./tray/story.tsx";
import { Strip } from "./tray/strip/strip.tsx";
import { type Tab, Tray } from "./tray/tray.tsx";
import { Zoom } from "./tray/zoom.tsx";

interface Props {
  readonly document: OpenDocument;
  readonly session: Session;
  readonly placed: Placed | undefined;
  readonly edit: Edit;
  readonly theme: PageTheme;
  readonly choices: {
    readonly drafts: readonly DraftHead[];
    readonly takeFile: TakeFile;
    readonly current: string;
  };
  readonly stop: () => void;
  readonly again: () => void;
}

/** A loom on the table: sheet, margin and tray. */
export function Table({ document, session, placed, edit, theme, choices, stop, again }: Props) {
  const { loom, resolved } = document;
  const { report, reported, listed, progress, isChecking, isStopped, failure } = session;
  const [camera] = useState(() => new Camera());
  const [opened, openFinding] = useState<string>();
  const [pointed, point] = useState<readonly string[]>([]);
  const isNarrow = useNarrow();
  const frame = useRef<HTMLElement>(null);
  const [tab, setTab] = useState(isNarrow ? "findings" : loom.parts.length === 0 ? "shelf" : "story");
  // Until an edit is looked at nothing changes.
  const isBehind = isChecking || isStopped || failure !== undefined;
  const now = isBehind ? loom : undefined;
  const touched = useMemo(() => touchedSince(reported, now), [reported, now]);
  const [isFilled, fill] = useState(false);
  const [standing, stand] = useState<Situation>();
  const text = useMemo(() => reported && electrical(reported), [reported]);
  const asksTable = useMemo(() => (text === undefined ? undefined : ({ kind: "behaviour", text } as const)), [text]);
  const behaviour = useAnswer<"behaviour">(tab === "behaviour" ? asksTable : undefined);
  const isTableStale = touched.size > 0 || (behaviour.of !== undefined && behaviour.of !== asksTable);
  const editing = useMemo(() => (isNarrow ? undefined : { loom, edit }), [isNarrow, loom, edit]);
  const lit = listed?.find((l) => l.finding.id === opened);
  const finding = lit?.finding;
  const story = lit?.loom ?? reported;
  const played = useMemo(() => story && electrical(story), [story]);
  const isLitStale = lit !== undefined && isStale(lit, now);
  const situation = isTableStale || finding !== undefined ? undefined : standing;
  const scene = useMemo(() => {
    if (situation !== undefined && placed !== undefined)
      return sceneOf(resolved, placed, situationMarks(resolved, situation), isNarrow ? undefined : BEGUN_SHEET);
    const marks = finding && marksOf(resolved, finding);
    // What was computed for another loom is not shown as if it held.
    const { states: _, volts: _volts, ...path } = marks ?? {};
    return placed && sceneOf(resolved, placed, isLitStale ? path : marks, isNarrow ? undefined : BEGUN_SHEET);
  }, [resolved, placed, finding, situation, isLitStale, isNarrow]);
  const showValues = useCallback(() => setTab("particulars"), []);
  const board = useBoard({ loom, resolved, placed, scene, camera, edit, showValues });
  const { hand, handlers, carry } = useHand({ frame, camera, scene, does: board.does });
  const { picked, choosing } = board;
  const taker = isNarrow || scene === undefined ? undefined : { ...handlers, keys: board.keys };
  const item = hand.kind === "carrying" ? hand.item : undefined;
  const carried = useMemo(() => item && pictured(item, theme), [item, theme]);
  const pencil = useMemo(
    () => (scene === undefined || isNarrow ? undefined : pencilOf(hand, picked, scene, resolved, carried)),
    [hand, picked, scene, resolved, carried, isNarrow],
  );
  const haloed = useMemo(
    () => (picked?.kind === "wire" ? [...pointed, picked.id] : pointed),
    [pointed, picked?.kind, picked?.id],
  );
  const told = listed && toldIn(listed);
  const wait = isStopped ? "Not drawn." : "Drawing …";
  const check = { progress, isChecking, isStopped, failure, stop, again };
  const findings =
    loom.parts.length === 0 ? (
      <p className="hint">What will not let go, what is fed backwards and what can burn is told here as you draw.</p>
    ) : (
      <>
        {report === undefined ? (
          <Checking {...check} isDrawn={placed !== undefined} hasFound={told !== undefined && told.length > 0} />
        ) : (
          <CheckingAgain {...check} />
        )}
        {listed !== undefined && (
          <Findings
            listed={listed}
            report={isStopped ? undefined : report}
            now={now}
            scene={scene}
            picked={opened}
            pick={(id) => {
              openFinding(id);
              stand(undefined);
              point([]);
              if (id !== undefined && !STAYING.has(tab) && !isNarrow) setTab("story");
            }}
            point={point}
          />
        )}
      </>
    );
  const tabs: readonly Tab[] = [
    ...(isNarrow ? [{ id: "findings", title: "Findings", count: told?.length, body: findings }] : []),
    ...(isNarrow ? [] : editingTabs({ loom, resolved, edit, theme, board, carry, show: setTab })),
    { id: "story", title: "Story", body: <Story loom={resolved} finding={finding} /> },
    { id: "path", title: "Path", body: <PathList loom={resolved} finding={finding} point={point} /> },
    {
      id: "strip",
      title: "Strip chart",
      fills: true,
      body: (
        <Strip
          isShown={tab === "strip"}
          text={played}
          title={document.title}
          resolved={resolved}
          finding={finding}
          isStale={lit === undefined ? touched.size > 0 : isLitStale}
          fill={isNarrow ? undefined : { isFilled, turn: () => fill(!isFilled) }}
        />
      ),
    },
    {
      id: "behaviour",
      title: "Behaviour",
      fills: true,
      body: (
        <Behaviour
          seen={behaviour}
          loom={reported}
          resolved={resolved}
          report={report}
          isStale={isTableStale}
          editing={editing}
          show={(s) => {
            openFinding(undefined);
            stand(s);
            fill(false);
          }}
          openFinding={(id) => {
            openFinding(id);
            stand(undefined);
            fill(false);
            setTab("story");
          }}
          fill={isNarrow ? undefined : { isFilled, turn: () => fill(!isFilled) }}
        />
      ),
    },
    { id: "looms", title: "Looms", body: <Choices {...choices} /> },
  ];
  const shown = tabs.some((t) => t.id === tab) ? tab : "story";
  return (
    <main className={`table${isFilled && !isNarrow && tabs.find((t) => t.id === shown)?.fills ? " filled" : ""}`}>
      <Sheet
        title={document.title}
        wait={wait}
        scene={scene}
        lit={situation === undefined ? finding?.id : `situation ${situation.at}`}
        theme={theme}
        camera={camera}
        pointed={haloed}
        frame={frame}
        taker={taker}
        pencil={pencil}
        over={hand.kind === "free" ? hand.over?.kind : hand.kind}
      >
        {loom.parts.length === 0 && !isNarrow && <p className="begin">Drag a part from the shelf to the sheet.</p>}
        {board.said !== undefined && (
          <p className="said" role="status">
            {board.said}
          </p>
        )}
        {situation !== undefined && (
          <p className="standing" role="status">
            <span>
              As it stands with <strong>{situation.table.situations[situation.at]?.title}</strong>
            </span>
            <button type="button" className="word" onClick={() => stand(undefined)}>
              Done
            </button>
          </p>
        )}
        {choosing !== undefined && (
          <TerminalMenu
            {...choosing}
            frame={camera.frame}
            loom={loom}
            resolved={resolved}
            take={board.wireTo}
            leave={board.leave}
          />
        )}
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
        isFilled={isFilled}
        fill={fill}
        tools={isNarrow ? null : <Zoom camera={camera} />}
      />
      {!isNarrow && (
        <aside className="margin" aria-label="Findings" aria-busy={isChecking}>
          <header>
            <h2>Findings</h2>
            {told !== undefined && <Counts told={told} />}
          </header>
          {findings}
        </aside>
      )}
    </main>
  );
}

/** Tabs that are about what is picked too, and stay. */
const STAYING: ReadonlySet<string> = new Set(["path", "strip"]);
