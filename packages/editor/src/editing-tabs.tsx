import { type Loom, newPart, type ResolvedLoom, type ShelfItem } from "@loomproof/netlist";
import { Outline } from "./panels/outline/outline.tsx";
import { NAME_FIELD } from "./panels/particulars/desk.ts";
import { Particulars } from "./panels/particulars/particulars.tsx";
import { Shelf } from "./panels/shelf/shelf.tsx";
import type { Edit, Picked } from "./session/editing.ts";
import { removalOf } from "./session/removing.ts";
import type { PageTheme } from "./sheet/drawing.tsx";
import type { Tab } from "./tray/tray.tsx";

interface Editing {
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  readonly edit: Edit;
  readonly theme: PageTheme;
  readonly chosen: Picked | undefined;
  readonly choose: (picked: Picked | undefined) => void;
  readonly show: (tab: string) => void;
  readonly told: string | undefined;
  readonly tell: (says: string | undefined) => void;
}

/** The tabs with which a person draws without the mouse and sets values. */
export function editingTabs({
  loom,
  resolved,
  edit,
  theme,
  chosen,
  choose,
  show,
  told,
  tell,
}: Editing): readonly Tab[] {
  const remove = (picked: Picked) => {
    const { says, make, tells } = removalOf(loom, picked);
    const why = edit(says, make);
    tell(why ?? tells);
    if (why === undefined && chosen?.id === picked.id) choose(undefined);
  };
  const toName = () => {
    show("particulars");
    requestAnimationFrame(() => document.getElementById(NAME_FIELD)?.focus());
  };
  const pick = (picked: Picked | undefined) => {
    choose(picked);
    tell(undefined);
  };
  const place = ({ family, kind, definition }: ShelfItem) => {
    const { id } = newPart(loom, family, kind, definition);
    const why = edit(`${id} placed`, (l) => newPart(l, family, kind, definition).loom);
    if (why === undefined) pick({ kind: "part", id });
  };
  const desk = { loom, resolved, picked: chosen, pick, edit, remove, told };
  return [
    {
      id: "shelf",
      title: "Shelf",
      body: <Shelf theme={theme} place={place} carry={place} />,
    },
    { id: "particulars", title: "Particulars", body: <Particulars {...desk} /> },
    { id: "outline", title: "Outline", body: <Outline {...desk} toName={toName} /> },
  ];
}
