import { type PartWith, ratedAmps } from "@loomproof/netlist";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { putWork } from "./load.ts";

/** High-resistance injector of about 14 ohm: from memory. */
const AMPS_NOT_GIVEN = 0.85;

export function injector(part: PartWith<"injector">, door: Door, { systemVolts }: Context): void {
  const { values } = part;
  putWork(door, values, {
    from: door.terminal("1"),
    to: door.terminal("2"),
    says: "winding",
    share: { on: 0.6, partly: 0.25 },
    ratedAmps: ratedAmps(values, systemVolts, AMPS_NOT_GIVEN),
    systemVolts,
  });
}
