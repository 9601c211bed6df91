import type { Measured } from "@loomproof/drawing";

/** What no drawing may have. */
export const clean: Partial<Measured> = {
  symbolOnSymbol: 0,
  labelOnLabel: 0,
  labelOnWire: 0,
  labelOnSymbol: 0,
  wireOnSymbol: 0,
  textOutOfSymbol: 0,
  wireOnWire: 0,
  unnamedBars: 0,
  unnumbered: 0,
  farNumbered: 0,
};

export const SMALLEST_TEXT = 10.5;
