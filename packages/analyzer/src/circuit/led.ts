import { type PartWith, ratedAmps } from "@loomproof/netlist";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { putWork } from "./load.ts";

/** Watts where nothing is given: from memory. */
const WATTS_NOT_GIVEN: Readonly<Record<string, number>> = { unit: 6, indicator: 0.25 };

export function led(part: PartWith<"led">, door: Door, { systemVolts }: Context): void {
  const { values } = part;
  const amps = ratedAmps(values, systemVolts, (WATTS_NOT_GIVEN[part.kind] ?? 6) / systemVolts);
  putWork(door, values, {
    from: door.terminal("+"),
    to: door.terminal("-"),
    says: "LED",
    share: { on: 0.5, partly: 0.005 },
    ratedAmps: amps,
    systemVolts,
    curve: { volts: [values.knee], amps: [0], slopeBelow: 0, slopeAbove: amps / (systemVolts - values.knee) },
  });
}
