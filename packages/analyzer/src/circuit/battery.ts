import { type PartWith, SUPPLY_12V } from "@loomproof/netlist";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";

export function battery(part: PartWith<"battery">, door: Door, { systemVolts }: Context): void {
  const emf = part.values.volts ?? (SUPPLY_12V.rest.usual * systemVolts) / 12;
  door.source({
    from: door.terminal("+"),
    to: door.terminal("-"),
    says: "battery",
    emf,
    ohms: part.values.ohms,
    supply: true,
    feeds: true,
  });
}
