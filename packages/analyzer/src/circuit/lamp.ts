import { type PartWith, ratedAmps } from "@loomproof/netlist";
import { filament } from "./curve.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { judgeOf } from "./load.ts";

export function lamp(part: PartWith<"lamp">, door: Door, { systemVolts }: Context): void {
  const { values } = part;
  const amps = ratedAmps(values, systemVolts, (part.kind === "indicator" ? 2 : 21) / systemVolts);
  const ends = { from: door.terminal("a"), to: door.terminal("b"), says: "filament" };
  const judge = judgeOf(values, { on: 0.8, partly: 0.15 }, amps);
  if (values.ohms !== undefined) door.load({ ...ends, ohms: values.ohms }, judge, values.lowIsMeant !== undefined);
  else door.load({ ...ends, curve: filament(systemVolts, amps) }, judge, values.lowIsMeant !== undefined);
}
