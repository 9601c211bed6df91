import type { FamilyId, PartWith } from "@loomproof/netlist";
import { alternator } from "./alternator.ts";
import { battery } from "./battery.ts";
import { capacitor } from "./capacitor.ts";
import type { Input } from "./circuit.ts";
import { connector } from "./connector.ts";
import { diode } from "./diode.ts";
import type { Door } from "./door.ts";
import { type EngineLatches, engine } from "./engine.ts";
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

/** What a family may ask of the loom around it. */
export interface Context {
  readonly systemVolts: number;
  /** The world input that moves this switch, if one does. */
  readonly mover: (switchId: string) => { readonly index: number; readonly input: Input } | undefined;
  /** The loom has an alternator. */
  readonly isCharged: boolean;
  readonly addEngine: (engine: EngineLatches) => void;
  /** The engine that turns things here: the one named, or the first. */
  readonly engineNamed: (id?: string) => EngineLatches | undefined;
  readonly inputNamed: (id: string) => { readonly index: number; readonly input: Input } | undefined;
}

type ToCircuit<K extends FamilyId> = (part: PartWith<K>, door: Door, context: Context) => void;

/** Families to elements; a family without its circuit does not compile. */
export const circuits: { readonly [K in FamilyId]: ToCircuit<K> } = {
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
