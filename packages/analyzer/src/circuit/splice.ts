import type { PartWith } from "@loomproof/netlist";
import type { Door } from "./door.ts";

/** A splice is one node: its wires carry the resistance. */
export function splice(_part: PartWith<"splice">, door: Door): void {
  door.node(door.terminal("1"));
}
