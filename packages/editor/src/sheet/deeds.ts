import { mirrored, moved, type Placed, put, type Scene, spliced, turned, unitsAt } from "@loomproof/drawing";
import {
  connect,
  type DrawingText,
  type Loom,
  newPart,
  resolve,
  type ShelfItem,
  spliceInto,
  whyNotConnect,
  whyNotSplice,
} from "@loomproof/netlist";
import type { Edit } from "../session/editing.ts";
import type { Spot } from "./hand.ts";

// What a hand asks for, as edits of the loom. Each gives in words why it cannot be, or undefined.

/** The sheet that an edit starts from. */
export interface OnSheet {
  readonly loom: Loom;
  readonly placed: Placed;
  readonly drawing: DrawingText;
  readonly scene: Scene;
  readonly edit: Edit;
}

const drawnAs = (loom: Loom, drawing: DrawingText): Loom => ({ ...loom, drawing });

export const moveBox = ({ placed, drawing, edit }: OnSheet, part: string, box: string, dx: number, dy: number) =>
  edit(`${part} moved`, (loom) => drawnAs(loom, moved(placed, drawing, box, dx, dy)));

export const turnBox = ({ placed, drawing, edit }: OnSheet, part: string, box: string) =>
  edit(`${part} turned`, (loom) => drawnAs(loom, turned(placed, drawing, box)));

export const mirrorBox = ({ placed, drawing, edit }: OnSheet, part: string, box: string) =>
  edit(`${part} mirrored`, (loom) => drawnAs(loom, mirrored(placed, drawing, box)));

export const wire = ({ loom, edit }: OnSheet, from: string, to: string): string | undefined =>
  whyNotConnect(loom, from, to) ?? edit(`Wire from ${from} to ${to}`, (l) => connect(l, from, to).loom);

/** @param at near a spot of the wire, px of the sheet */
export function splice({ loom, placed, drawing, scene, edit }: OnSheet, from: string, id: string, at: Spot) {
  const why = whyNotSplice(loom, id, from);
  if (why !== undefined) return why;
  return edit(`Splice in ${id}, to ${from}`, (l) => {
    const made = spliceInto(l, id, from);
    return drawnAs(made.loom, spliced(placed, drawing, id, unitsAt(scene, at), made.splice, made.wires[0]));
  });
}

type Took = (id: string) => void;

/**
 * A new part from the shelf.
 *
 * @param at its middle, px of the sheet
 * @param near whether it may stand beside that, where there is room
 * @param took hears its designation
 */
export const place = (
  { placed, drawing, scene, edit }: OnSheet,
  item: ShelfItem,
  at: Spot,
  near: boolean,
  took: Took,
) =>
  taken(edit, item, took, (loom, id) =>
    drawnAs(loom, put(resolve(loom), placed, drawing, id, unitsAt(scene, at), near)),
  );

/** A new part for a loom that is not drawn yet: it finds its place with all the others. */
export const placeAnywhere = (edit: Edit, item: ShelfItem, took: Took) => taken(edit, item, took, (loom) => loom);

function taken(
  edit: Edit,
  { family, kind, definition, title }: ShelfItem,
  took: Took,
  stand: (loom: Loom, id: string) => Loom,
): string | undefined {
  let id = "";
  const refused = edit(`New ${title.toLowerCase()}`, (loom) => {
    const made = newPart(loom, family, kind, definition);
    id = made.id;
    return stand(made.loom, made.id);
  });
  if (refused === undefined) took(id);
  return refused;
}
