import type { Judge } from "./circuit.ts";
import type { Curve } from "./curve.ts";
import type { Door } from "./door.ts";

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

interface Given extends Thresholds {
  readonly ohms: number | undefined;
  readonly lowIsMeant: string | undefined;
}

interface Work {
  readonly from: string;
  readonly to: string;
  readonly says: string;
  readonly share: { readonly on: number; readonly partly: number };
  readonly ratedAmps: number;
  readonly systemVolts: number;
  /** How its current follows its volts; a plain resistance when left out. */
  readonly curve?: Curve;
}

/** The load that is a part's work. Ohms in the file make it a plain resistance, whatever its family. */
export function putWork(door: Door, given: Given, { share, ratedAmps, systemVolts, curve, ...ends }: Work): void {
  const isCurved = curve !== undefined && given.ohms === undefined;
  door.load(
    isCurved ? { ...ends, curve } : { ...ends, ohms: given.ohms ?? systemVolts / ratedAmps },
    judgeOf(given, share, ratedAmps),
    given.lowIsMeant !== undefined,
  );
}
