import type { PartWith } from "@loomproof/netlist";
import type { Door } from "./door.ts";

/** Once everything has settled only the leak is left. */
export function capacitor(part: PartWith<"capacitor">, door: Door): void {
  door.stray({ from: door.terminal("+"), to: door.terminal("-"), says: "leak", ohms: part.values.leak });
}
