import type { PartWith } from "@loomproof/netlist";
import type { Door } from "./door.ts";

/** The wires on the stud are one node; the metal under it, where cases sit, is another behind the joint. */
export function groundPoint(part: PartWith<"ground-point">, door: Door): void {
  door.conductor({
    from: door.terminal("1"),
    to: door.inside("metal"),
    says: "ground joint",
    ohms: Math.max(part.values.joint, 1e-5),
  });
}
