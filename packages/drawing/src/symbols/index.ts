import type { FamilyId, Part } from "@loomproof/netlist";
import { battery } from "./battery.ts";
import { diode } from "./diode.ts";
import { groundPoint } from "./ground-point.ts";
import { heater } from "./heater.ts";
import { keySwitch } from "./key-switch.ts";
import { lamp } from "./lamp.ts";
import { moduleFamily } from "./module.ts";
import { motor } from "./motor.ts";
import { protector } from "./protector.ts";
import { relay } from "./relay.ts";
import { resistor } from "./resistor.ts";
import { splice } from "./splice.ts";
import { switchFamily } from "./switch.ts";
import type { Facing, PartSymbol, Potential, ToSymbol } from "./symbol.ts";

/** One symbol a family; a family without one does not compile. */
const symbols: { readonly [K in FamilyId]: ToSymbol<K> } = {
  battery,
  diode,
  "ground-point": groundPoint,
  heater,
  "key-switch": keySwitch,
  lamp,
  module: moduleFamily,
  motor,
  protector,
  relay,
  resistor,
  splice,
  switch: switchFamily,
};

/** The symbol of a part, its terminals turned so that feed comes from above. */
export function symbolOf(part: Part, potential: Potential, facing: Facing): PartSymbol {
  const make = symbols[part.family] as ToSymbol<FamilyId>;
  return make(part, potential, facing);
}
