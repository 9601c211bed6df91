import { type Loom, resolve } from "@loomproof/netlist";
import { useEffect, useMemo, useState, useSyncExternalStore } from "react";
import { type Asked, askedFor, draftAddress, goTo } from "./address.ts";
import { type Desk, type Documents, documentsOf } from "./documents.ts";
import { isFresh, isUnsaved } from "./draft.ts";
import { draftStore } from "./drafts.ts";
import type { OpenDocument } from "./open-document.ts";
import { scenarios } from "./scenarios.ts";
import { type Saving, useSaving } from "./use-saving.ts";

export interface DocumentOfPage
  extends Saving,
    Pick<Documents, "edit" | "undo" | "redo" | "openFile" | "dismiss" | "takeOther" | "keepCopy" | "remove"> {
  /** Back to the first page. */
  readonly goHome: () => void;
  readonly document: OpenDocument | undefined;
  readonly desk: Desk;
}

const now = () => Date.now();
const asIs = (_: Loom, after: Loom) => after;

/**
 * The document of the page: what is open, how it is edited, kept and saved. The address says what is opened. `finish` is
 * applied to what an edit made, within the same step; it must stay the same function. `tell` shows a sentence.
 */
export function useDocument(
  tell: (says: string | undefined) => void,
  finish: (before: Loom, after: Loom) => Loom = asIs,
): DocumentOfPage {
  const [documents] = useState(() => documentsOf({ store: draftStore(), now, finish }));
  const desk = useSyncExternalStore(documents.subscribe, documents.desk);
  const saving = useSaving(documents, now, tell);
  useFollowing(documents);
  useEffect(() => {
    const look = () => {
      if (window.document.visibilityState !== "visible") return;
      documents.look();
      void documents.refresh();
    };
    window.document.addEventListener("visibilitychange", look);
    window.addEventListener("focus", look);
    return () => {
      window.document.removeEventListener("visibilitychange", look);
      window.removeEventListener("focus", look);
    };
  }, [documents]);
  useEffect(() => {
    const warn = (event: BeforeUnloadEvent) => {
      if (isLosing(documents.desk())) event.preventDefault();
    };
    window.addEventListener("beforeunload", warn);
    return () => window.removeEventListener("beforeunload", warn);
  }, [documents]);
  const document = useOpenDocument(desk);
  return useMemo(
    () => ({
      ...documents,
      ...saving,
      openFile: (...file) => {
        if (mayLeave(documents)) documents.openFile(...file);
      },
      goHome: () => {
        if (!mayLeave(documents)) return;
        goTo("");
        documents.close();
      },
      document,
      desk,
    }),
    [documents, saving, document, desk],
  );
}

/** Whether leaving the page now would lose an edit: neither in a file nor kept. */
const isLosing = ({ draft, keeping }: Desk): boolean =>
  draft !== undefined && !isFresh(draft) && isUnsaved(draft) && keeping.kept !== draft;

/** Whether what is open may be left: what another loom on the page would take the place of is asked about if it were lost. */
function mayLeave(documents: Documents): boolean {
  const desk = documents.desk();
  // What is only being written goes on being written.
  const isLost = isLosing(desk) && (desk.keeping.hasFailed || desk.keeping.isApart);
  return !isLost || window.confirm("This loom is neither saved to a file nor kept in this browser. Leave it?");
}

function useOpenDocument({ draft, keeping, opened }: Desk): OpenDocument | undefined {
  const loom = draft?.history.loom;
  const resolved = useMemo(() => loom && resolve(loom), [loom]);
  return useMemo(() => {
    if (draft === undefined || loom === undefined || resolved === undefined) return undefined;
    const { id, name, history, saved, example } = draft;
    return {
      id,
      opened,
      name,
      title: loom.title ?? "",
      loom,
      resolved,
      example,
      isFresh: isFresh(draft),
      undoSays: history.past.at(-1)?.says,
      redoSays: history.future[0]?.says,
      isUnsaved: isUnsaved(draft),
      saved,
      kept: keeping.kept === draft ? history.past.length : undefined,
      keeping,
    };
  }, [draft, loom, resolved, keeping, opened]);
}

/** Opens what the address asks for, now and whenever it changes. */
function useFollowing(documents: Documents): void {
  useEffect(() => {
    const follow = () => {
      const { draft } = documents.desk();
      const asked = askedFor(window.location.hash);
      if (draft !== undefined && !mayLeave(documents)) {
        goTo(draftAddress(draft.id));
        return;
      }
      open(documents, asked);
      void documents.refresh();
    };
    follow();
    window.addEventListener("hashchange", follow);
    return () => window.removeEventListener("hashchange", follow);
  }, [documents]);
}

function open(documents: Documents, asked: Asked): void {
  switch (asked.kind) {
    case "nothing":
      documents.close();
      return;
    case "blank":
      documents.openBlank();
      return;
    case "draft":
      void documents.openDraft(asked.id);
      return;
    case "example": {
      const example = scenarios.find((s) => s.id === asked.id);
      if (example !== undefined) documents.openExample(example);
      else documents.close(`There is no example called “${asked.id}” here. These are the ones there are.`);
      return;
    }
    default:
      asked satisfies never;
  }
}
