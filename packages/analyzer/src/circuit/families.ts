import type { FamilyId, PartWith } from "@loomproof/netlist";
import { battery } from "./battery.ts";
import type { Input } from "./circuit.ts";
import { diode } from "./diode.ts";
import type { Door } from "./door.ts";
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

/** What a family may ask of the loom around it. */
export interface Context {
  readonly systemVolts: number;
  /** The world input that moves this switch, if one does. */
  readonly mover: (switchId: string) => { readonly index: number; readonly input: Input } | undefined;
  readonly inputNamed: (id: string) => { readonly index: number; readonly input: Input } | undefined;
}

type ToCircuit<K extends FamilyId> = (part: PartWith<K>, door: Door, context: Context) => void;

/** Families to elements; a family without its circuit does not compile. */
export const circuits: { readonly [K in FamilyId]: ToCircuit<K> } = {
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
