import type { Loom, ResolvedLoom } from "@loomproof/netlist";
import { Outline } from "./panels/outline/outline.tsx";
import { NAME_FIELD } from "./panels/particulars/desk.ts";
import { Particulars } from "./panels/particulars/particulars.tsx";
import { Shelf } from "./panels/shelf/shelf.tsx";
import type { Edit } from "./session/editing.ts";
import type { PageTheme } from "./sheet/drawing.tsx";
import type { useBoard } from "./sheet/use-board.ts";
import type { useHand } from "./sheet/use-hand.ts";
import type { Tab } from "./tray/tray.tsx";

interface Editing {
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  readonly edit: Edit;
  readonly theme: PageTheme;
  readonly board: ReturnType<typeof useBoard>;
  readonly carry: ReturnType<typeof useHand>["carry"];
  readonly show: (tab: string) => void;
}

/** The tabs with which a person draws without the mouse and sets values. */
export function editingTabs({ loom, resolved, edit, theme, board, carry, show }: Editing): readonly Tab[] {
  const { picked, pick, remove, turn, mirror, placeNear } = board;
  const toName = () => {
    show("particulars");
    requestAnimationFrame(() => document.getElementById(NAME_FIELD)?.focus());
  };
  const desk = { loom, resolved, picked, pick, edit, remove };
  return [
    { id: "shelf", title: "Shelf", body: <Shelf theme={theme} place={placeNear} carry={carry} /> },
    { id: "particulars", title: "Particulars", body: <Particulars {...desk} turn={turn} mirror={mirror} /> },
    { id: "outline", title: "Outline", body: <Outline {...desk} toName={toName} /> },
  ];
}
