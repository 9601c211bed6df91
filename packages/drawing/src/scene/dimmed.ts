import { shownAs } from "../layout/graph.ts";
import type { Placed } from "../layout/layout.ts";

export type IsDim = (id: string) => boolean;

/**
 * Of a part that is drawn in pieces, a plug or a switch of several poles, only those that a lit wire ends at are lit. If
 * the path names the part but none of its wires, all of it is.
 */
export function dimInPieces({ loomWires }: Placed, isDim: IsDim): (piece: string) => boolean {
  const lit = new Set(loomWires.filter((w) => !isDim(w.id)).flatMap((w) => [w.from.part, w.to.part]));
  const litParts = new Set([...lit].map(shownAs));
  return (piece) => isDim(shownAs(piece)) || (litParts.has(shownAs(piece)) && !lit.has(piece));
}
