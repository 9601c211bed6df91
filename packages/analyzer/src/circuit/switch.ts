import { type PartWith, standardJoins } from "@loomproof/netlist";
import type { Guard } from "./circuit.ts";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { putSwitch } from "./positions.ts";

export function switchFamily(part: PartWith<"switch">, door: Door, context: Context): void {
  const joins = part.values.joins ?? standardJoins(part.kind);
  const positions = part.values.positions ?? Object.keys(joins);
  const isMain = part.values.role === "master" || part.values.role === "isolator";
  const input = putSwitch(door, { ...part.values, joins, positions, isKey: isMain, isMain }, context);
  const stops = stopsOf(part, positions);
  if (stops.length > 0) door.guard(input, stops);
}

/** What it must stop and where: as the file says; an isolator that says nothing stops all harm where it is off. */
function stopsOf({ kind, values }: PartWith<"switch">, positions: readonly string[]): Guard["stops"] {
  if (values.stops !== undefined)
    return Object.entries(values.stops).map(([at, parts]) => ({ stand: positions.indexOf(at), parts }));
  return kind === "isolator" || values.role === "isolator" ? [{ stand: 0, parts: undefined }] : [];
}
