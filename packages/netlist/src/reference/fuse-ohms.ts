// Cold resistance of blade fuses in ohms by rating in amps: read in a workshop reference that quotes a data sheet.
// Between and beyond the rows the drop at rating (about 0.1 V) is kept: from memory.
const ROWS: readonly (readonly [amps: number, ohms: number])[] = [
  [1, 0.123],
  [2, 0.0535],
  [4, 0.0228],
  [10, 0.0077],
  [20, 0.00338],
];
const DROP_AT_RATING_VOLTS = 0.075;

/** Cold resistance in ohms of a fuse of `ratedAmps`. */
export function fuseColdOhms(ratedAmps: number): number {
  return ROWS.find(([amps]) => amps === ratedAmps)?.[1] ?? DROP_AT_RATING_VOLTS / ratedAmps;
}
