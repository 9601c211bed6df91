import { type PartWith, ratedAmps } from "@loomproof/netlist";
import { filament } from "./curve.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { putWork } from "./load.ts";

export function lamp(part: PartWith<"lamp">, door: Door, { systemVolts }: Context): void {
  const { values } = part;
  const amps = ratedAmps(values, systemVolts, (part.kind === "indicator" ? 2 : 21) / systemVolts);
  putWork(door, values, {
    from: door.terminal("a"),
    to: door.terminal("b"),
    says: "filament",
    share: { on: 0.8, partly: 0.15 },
    ratedAmps: amps,
    systemVolts,
    curve: filament(systemVolts, amps),
  });
}
