import type { PartWith } from "@loomproof/netlist";
import type { Door } from "./door.ts";
import type { Context } from "./families.ts";
import { putSwitch } from "./positions.ts";

export function keySwitch(part: PartWith<"key-switch">, door: Door, context: Context): void {
  const { values } = part;
  putSwitch(door, { ...values, positions: values.positions ?? Object.keys(values.joins), isKey: true }, context);
}
