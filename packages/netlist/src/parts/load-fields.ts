import { z } from "zod";
import { COMMON_PRACTICE, quantity, shaped } from "./field.ts";
import { plainText } from "./text-form.ts";

// What motors, lamps and heaters share: how much they draw, and from which volts they count as on or partly on.

export const drawFields = {
  rated: quantity("amps", undefined, { says: "current at the system volts" }),
  watts: quantity("watts", undefined, { says: "power at the system volts" }),
  ohms: quantity("ohms", undefined, { says: "resistance, for a load taken as a plain resistance" }),
  onAbove: quantity("volts", undefined, {
    says: "volts from which it works",
    standard: "by its share of the rated current",
    source: COMMON_PRACTICE,
  }),
  partlyAbove: quantity("volts", undefined, {
    says: "volts from which it does something",
    standard: "by its share of the rated current",
    source: COMMON_PRACTICE,
  }),
  lowIsMeant: shaped(z.string().min(1).max(200), (raw) => raw, {
    form: plainText,
    says: "why it is meant to get less than full volts, such as two fans in series for half speed",
  }),
} as const;

interface Draw {
  readonly rated: number | undefined;
  readonly watts: number | undefined;
  readonly ohms: number | undefined;
}

/** Current in amps at `systemVolts`: from amps, else watts, else ohms, else `otherwise`. */
export function ratedAmps(draw: Draw, systemVolts: number, otherwise: number): number {
  if (draw.rated !== undefined) return draw.rated;
  if (draw.watts !== undefined) return draw.watts / systemVolts;
  if (draw.ohms !== undefined && draw.ohms > 0) return systemVolts / draw.ohms;
  return otherwise;
}
