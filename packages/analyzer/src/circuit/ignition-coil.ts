import { type PartWith, ratedAmps } from "@loomproof/netlist";
import { whileOn } from "./circuit.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { putWork } from "./load.ts";

/** A primary of about 1.5 ohm, and one whose driver charges it a little at a time: both from memory. */
const AMPS_NOT_GIVEN: Readonly<Record<string, number>> = { plain: 8, "own-driver": 3 };
const SIGNAL_OHMS = 2000;
const DRIVER_OHMS = 0.1;

export function ignitionCoil(part: PartWith<"ignition-coil">, door: Door, { systemVolts }: Context): void {
  const { values } = part;
  const hasDriver = part.kind === "own-driver";
  const [feed, one] = [door.terminal("15"), door.terminal("1")];
  const primary = hasDriver ? door.inside("driver") : one;
  putWork(door, values, {
    from: feed,
    to: primary,
    says: "primary winding",
    share: { on: 0.6, partly: 0.25 },
    ratedAmps: ratedAmps(values, systemVolts, AMPS_NOT_GIVEN[part.kind] ?? 8),
    systemVolts,
  });
  if (!hasDriver) return;
  const body = door.terminal("31");
  door.stray({ from: one, to: body, says: "signal input", ohms: SIGNAL_OHMS });
  const latch = door.latch({
    id: `${part.id}/commanded`,
    kind: "level",
    says: { on: "is told to fire", off: "is no longer told to fire" },
    drive: { kind: "volts", a: door.node(one), b: door.node(body), sign: 1 },
    on: { least: values.level, most: values.level },
    off: { least: values.level, most: values.level },
  });
  door.channel({
    from: primary,
    to: body,
    says: "driver inside",
    ohms: DRIVER_OHMS,
    oneWay: true,
    closed: [[whileOn(latch)]],
  });
}
