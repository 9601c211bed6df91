import type { Loom, ResolvedLoom } from "@loomproof/netlist";
import type { Saved } from "./draft.ts";
import type { Keeping } from "./keeper.ts";

/** The loom that is open, as panels, sheet and top line see it. */
export interface OpenDocument {
  readonly id: string;
  /** Counts what was opened: another number, another loom. */
  readonly opened: number;
  /** Name of its file; empty if it never had one. */
  readonly name: string;
  readonly title: string;
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  /** The example it came from. */
  readonly example: string | undefined;
  /** Never edited. */
  readonly isFresh: boolean;
  /** What Undo takes back and Redo makes again, in words. */
  readonly undoSays: string | undefined;
  readonly redoSays: string | undefined;
  /** The loom is not what its file holds, or it has none. */
  readonly isUnsaved: boolean;
  readonly saved: Saved | undefined;
  /** So many steps are on the disk for certain; undefined while what is on the page is not, or not yet. */
  readonly kept: number | undefined;
  readonly keeping: Keeping;
}
