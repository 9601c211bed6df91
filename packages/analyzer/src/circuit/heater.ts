import { type PartWith, ratedAmps } from "@loomproof/netlist";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { putWork } from "./load.ts";

export function heater(part: PartWith<"heater">, door: Door, { systemVolts }: Context): void {
  const { values } = part;
  putWork(door, values, {
    from: door.terminal("a"),
    to: door.terminal("b"),
    says: "heater",
    share: { on: 0.8, partly: 0.1 },
    ratedAmps: ratedAmps(values, systemVolts, 10),
    systemVolts,
  });
}
