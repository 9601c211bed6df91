import { battery } from "./battery.ts";
import { diode } from "./diode.ts";
import type { ValuesOf } from "./field.ts";
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

/** The one list of families. The circuit and the symbols of each are mapped types over it. */
export const families = {
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
} as const;

export type FamilyId = keyof typeof families;

/** The values of a family in SI. */
export type FamilyValues<K extends FamilyId> = ValuesOf<(typeof families)[K]["fields"]>;

export const familyIds = Object.keys(families).sort() as FamilyId[];

export const isFamilyId = (word: unknown): word is FamilyId =>
  typeof word === "string" && Object.hasOwn(families, word);
