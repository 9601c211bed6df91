import type { Loom, ResolvedLoom } from "@loomproof/netlist";
import type { Edit, Picked } from "../../session/editing.ts";
import type { TerminalChoice } from "../fields/terminals.ts";

/** What every form of the particulars works with. */
export interface Desk {
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  readonly pick: (picked: Picked | undefined) => void;
  readonly edit: Edit;
  /** What is picked goes by another name now; its form stays as it is, with the keyboard where it was. */
  readonly renamed: (picked: Picked) => void;
  /** Every terminal there is to wire to. */
  readonly terminals: readonly TerminalChoice[];
}

/** The id of the field with the designation or number, for the key that leads to it. */
export const NAME_FIELD = "particulars-name";
