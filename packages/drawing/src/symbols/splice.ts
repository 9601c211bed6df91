import type { PartWith } from "@loomproof/netlist";
import type { PartSymbol } from "./symbol.ts";

/** A splice is drawn as a bar with a dot a wire; layout makes it. The part itself has no strokes. */
export const splice = (_part: PartWith<"splice">): PartSymbol => ({
  w: 0,
  h: 0,
  left: 0,
  right: 0,
  mirrors: false,
  stretches: false,
  pins: [],
  strokes: () => [],
});
