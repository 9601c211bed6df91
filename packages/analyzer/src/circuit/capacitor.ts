import type { PartWith } from "@loomproof/netlist";
import type { Door } from "./door.ts";

export function capacitor(part: PartWith<"capacitor">, door: Door): void {
  const { leak, farads } = part.values;
  door.capacitance({ from: door.terminal("+"), to: door.terminal("-"), says: "leak", ohms: leak, farads });
}
