import { type PartWith, protectorOhms } from "@loomproof/netlist";
import type { Door } from "./door.ts";

export function protector(part: PartWith<"protector">, door: Door): void {
  door.protector({ from: door.terminal("a"), to: door.terminal("b"), says: "fuse", ohms: protectorOhms(part.values) });
}
