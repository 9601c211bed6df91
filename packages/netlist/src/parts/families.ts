import { alternator } from "./alternator.ts";
import { battery } from "./battery.ts";
import { capacitor } from "./capacitor.ts";
import { connector } from "./connector.ts";
import { diode } from "./diode.ts";
import { engine } from "./engine.ts";
import type { ValuesOf } from "./field.ts";
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

/** The one list of families. The circuit and the symbols of each are mapped types over it. */
export const families = {
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
} as const;

export type FamilyId = keyof typeof families;

/** The values of a family in SI. */
export type FamilyValues<K extends FamilyId> = ValuesOf<(typeof families)[K]["fields"]>;

export const familyIds = Object.keys(families).sort() as FamilyId[];

export const isFamilyId = (word: unknown): word is FamilyId =>
  typeof word === "string" && Object.hasOwn(families, word);
