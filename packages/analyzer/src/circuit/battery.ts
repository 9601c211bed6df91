import { type PartWith, SUPPLY_12V } from "@loomproof/netlist";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";

/** A full battery takes about 10 A at 14.2 V: from memory. */
const CHARGING_OHMS = 0.15;

export function battery(part: PartWith<"battery">, door: Door, { systemVolts, isCharged }: Context): void {
  const emf = part.values.volts ?? (SUPPLY_12V.rest.usual * systemVolts) / 12;
  door.source({
    from: door.terminal("+"),
    to: door.terminal("-"),
    says: "battery",
    emf,
    ohms: part.values.ohms,
    charging: part.values.charging ?? (isCharged ? CHARGING_OHMS : undefined),
    supply: "rest",
    feeds: true,
  });
}
