import type { Loom } from "@loomproof/netlist";

/** What a person has picked, on the sheet or in a list. */
export interface Picked {
  readonly kind: "part" | "wire";
  readonly id: string;
}

/**
 * Makes one named edit, a step that Undo takes back: "K3: release 2.4 V". Gives in words why it cannot be, or undefined
 * when it is done. Nothing is changed when it cannot be.
 */
export type Edit = (says: string, make: (loom: Loom) => Loom) => string | undefined;
