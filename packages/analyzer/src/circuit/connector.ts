import { type PartWith, sidesOf } from "@loomproof/netlist";
import type { Door } from "./door.ts";

export function connector(part: PartWith<"connector">, door: Door): void {
  for (const cavity of part.values.cavities) {
    const [a, b] = sidesOf(cavity);
    door.conductor({
      from: door.terminal(a),
      to: door.terminal(b),
      says: `cavity ${cavity}`,
      ohms: part.values.contactOhms,
    });
  }
}
