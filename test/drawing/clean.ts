import { type Measured, measure, type Scene } from "@loomproof/drawing";
import { expect } from "vitest";

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

const SMALLEST_TEXT = 10.5;

export function expectClean(sheet: Scene): void {
  expect(measure(sheet)).toMatchObject(clean);
  expect(measure(sheet).smallestText).toBeGreaterThanOrEqual(SMALLEST_TEXT);
}

export function expectNoWorse(sheet: Scene, ceiling: { readonly crossings: number; readonly bends: number }): void {
  const { crossings, overBars, bends } = measure(sheet);
  expect(crossings + overBars).toBeLessThanOrEqual(ceiling.crossings);
  expect(bends).toBeLessThanOrEqual(ceiling.bends);
}
