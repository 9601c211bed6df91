import type { FamilyId, Part } from "@loomproof/netlist";
import { alternator } from "./alternator.ts";
import { battery } from "./battery.ts";
import { capacitor } from "./capacitor.ts";
import { connector } from "./connector.ts";
import { diode } from "./diode.ts";
import { engine } from "./engine.ts";
import { groundPoint } from "./ground-point.ts";
import { heater } from "./heater.ts";
import { ignitionCoil } from "./ignition-coil.ts";
import { injector } from "./injector.ts";
import { keySwitch } from "./key-switch.ts";
import { lamp } from "./lamp.ts";
import { led } from "./led.ts";
import { moduleFamily } from "./module.ts";
import { motor } from "./motor.ts";
import { protector } from "./protector.ts";
import { relay } from "./relay.ts";
import { resistor } from "./resistor.ts";
import { splice } from "./splice.ts";
import { starter } from "./starter.ts";
import { switchFamily } from "./switch.ts";
import type { Facing, PartSymbol, Potential, ToSymbol } from "./symbol.ts";

/** One symbol a family; a family without one does not compile. */
const symbols: { readonly [K in FamilyId]: ToSymbol<K> } = {
  alternator,
  battery,
  capacitor,
  connector,
  diode,
  engine,
  "ground-point": groundPoint,
  heater,
  "ignition-coil": ignitionCoil,
  injector,
  "key-switch": keySwitch,
  lamp,
  led,
  module: moduleFamily,
  motor,
  protector,
  relay,
  resistor,
  splice,
  starter,
  switch: switchFamily,
};

/** The symbol of a part, its terminals turned so that feed comes from above. */
export function symbolOf(part: Part, potential: Potential, facing: Facing): PartSymbol {
  const make = symbols[part.family] as ToSymbol<FamilyId>;
  return make(part, potential, facing);
}
