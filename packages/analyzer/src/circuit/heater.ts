import { type PartWith, ratedAmps } from "@loomproof/netlist";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { judgeOf } from "./load.ts";

export function heater(part: PartWith<"heater">, door: Door, { systemVolts }: Context): void {
  const { values } = part;
  const amps = ratedAmps(values, systemVolts, 10);
  door.load(
    { from: door.terminal("a"), to: door.terminal("b"), says: "heater", ohms: values.ohms ?? systemVolts / amps },
    judgeOf(values, { on: 0.8, partly: 0.1 }, amps),
    values.lowIsMeant !== undefined,
  );
}
