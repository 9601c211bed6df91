import type { PartWith } from "@loomproof/netlist";
import type { Door } from "./door.ts";

export function resistor(part: PartWith<"resistor">, door: Door): void {
  door.series({ from: door.terminal("a"), to: door.terminal("b"), says: "resistor", ohms: part.values.ohms });
}
