import type { Box } from "./graph.ts";

/** Left edge of the symbol of each box, in units. */
export type Columns = Map<string, number>;

export const pinX = (box: Box, x: number, terminal: string): number => {
  const pin = box.pins.find((p) => p.terminal === terminal);
  const at = pin?.x ?? box.w / 2;
  return x + (box.mirrored ? box.w - at : at);
};
