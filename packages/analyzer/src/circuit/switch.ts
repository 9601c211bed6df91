import { type PartWith, standardJoins } from "@loomproof/netlist";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { putSwitch } from "./positions.ts";

export function switchFamily(part: PartWith<"switch">, door: Door, context: Context): void {
  const joins = part.values.joins ?? standardJoins(part.kind);
  const positions = part.values.positions ?? Object.keys(joins);
  const isMain = part.values.role === "master" || part.values.role === "isolator";
  putSwitch(door, { ...part.values, joins, positions, isKey: isMain, isMain }, context);
}
