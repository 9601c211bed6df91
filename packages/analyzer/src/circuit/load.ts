import type { Judge } from "./circuit.ts";

interface Thresholds {
  readonly onAbove: number | undefined;
  readonly partlyAbove: number | undefined;
}

/**
 * When a load counts as on or partly on: by the volts the file gives, else by its share of the rated current (common
 * practice: filament 0.8 / 0.15, motor 0.6 / 0.25, heater 0.8 / 0.1).
 */
export function judgeOf(
  given: Thresholds,
  share: { readonly on: number; readonly partly: number },
  ratedAmps: number,
): Judge {
  if (given.onAbove === undefined) return { kind: "share", ratedAmps, ...share };
  return { kind: "volts", on: given.onAbove, partly: given.partlyAbove ?? given.onAbove * share.partly };
}
