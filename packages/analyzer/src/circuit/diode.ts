import type { PartWith } from "@loomproof/netlist";
import { plainDiode, siliconDiode, withZener } from "./curve.ts";
import type { Door } from "./door.ts";

const ZENER_OHMS = 1;

export function diode(part: PartWith<"diode">, door: Door): void {
  const { values } = part;
  const forward = values.drop === undefined ? siliconDiode : plainDiode(values.drop, values.ohms);
  const curve = part.kind === "zener" ? withZener(forward, values.volts, ZENER_OHMS) : forward;
  door.diode({ from: door.terminal("A"), to: door.terminal("K"), says: "diode", curve });
}
