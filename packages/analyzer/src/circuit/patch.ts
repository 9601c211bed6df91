/**
 * Some elements or values changed: a supply corner, a fault, a what-if, a trial repair. Everything not named stays as
 * the loom says.
 */
export interface Patch {
  /** Elements that do not conduct. */
  readonly open: readonly number[];
  /** Stray diodes and the like that are taken out of the circuit are opened too; kept apart for the report. */
  readonly supply: "least" | "usual" | "most";
  readonly coilCelsius: number;
  readonly draw: "least" | "most";
  /** Unknown pins taken as present, by tag. */
  readonly present: readonly string[];
}

export const USUAL: Patch = { open: [], supply: "usual", coilCelsius: 20, draw: "most", present: [] };

/** The same patch with more elements open. */
export const opening = (patch: Patch, elements: readonly number[]): Patch => ({
  ...patch,
  open: [...new Set([...patch.open, ...elements])].sort((a, b) => a - b),
});
