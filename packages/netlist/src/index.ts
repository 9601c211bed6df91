export { type Applied, apply, applyAll, type Change, change, type Difference, invert } from "./change/change.ts";
export { type Conflict, type Merged, merge } from "./change/merge.ts";
export { asWritten, connect, isSameTerminal, whyNotConnect } from "./edit/connect.ts";
export { isFree, nextDesignation, nextWireNumber } from "./edit/designation.ts";
export { wantOnlyWhen } from "./edit/intents.ts";
export { newLoom, setTitle } from "./edit/loom.ts";
export { newPart } from "./edit/new-part.ts";
export { addPart, removePart, setValue } from "./edit/parts.ts";
export { addPin, removePin, renamePin, setDefinition, setPin, setRail } from "./edit/pins.ts";
export { removePartAndWires, removeWireAndTalk } from "./edit/remove.ts";
export { renamePart, renameWire } from "./edit/rename.ts";
export { spliceInto, whyNotSplice } from "./edit/splice.ts";
export { addWire, moveWireEnd, removeWire, setWireValue } from "./edit/wires.ts";
export { clampText, pullText } from "./forms/clamp.ts";
export { type FormField, fieldsOf } from "./forms/fields.ts";
export { asInFile, withItem } from "./forms/item.ts";
export { formFor, readLine } from "./forms/lines.ts";
export { positionsLine, readPositions, setPositions } from "./forms/positions.ts";
export type { Intent, SituationText, Wish } from "./loom/intents.ts";
export { loomJsonSchema } from "./loom/json-schema.ts";
export { naturalOrder } from "./loom/natural-order.ts";
export { type Parsed, parse } from "./loom/parse.ts";
export type { Problem } from "./loom/problem.ts";
export {
  type Part,
  type PartWith,
  type ResolvedLoom,
  resolve,
  type Wire,
  type WorldInput,
} from "./loom/resolve.ts";
export { type DrawingText, FORMAT, LIMITS, type Loom, loomSchema, type PlaceText } from "./loom/schema.ts";
export type { SealIn } from "./loom/seal-ins.ts";
export { sketch } from "./loom/sketch.ts";
export { readTerminal, type TerminalRef, terminalText } from "./loom/terminal-ref.ts";
export { write } from "./loom/write.ts";
export { type Net, nets } from "./nets/nets.ts";
export {
  type Atom,
  atomsOf,
  type Condition,
  type EnginePhase,
  type Term,
} from "./parts/condition.ts";
export { sidesOf } from "./parts/connector.ts";
export { type FamilyId, type FamilyValues, families, familyIds } from "./parts/families.ts";
export type { Harm, Terminal } from "./parts/family.ts";
export type { FieldForm, Span } from "./parts/field.ts";
export { ratedAmps } from "./parts/load-fields.ts";
export {
  type DrawPoint,
  type InsideElement,
  MODULE_DEFAULTS,
  type ModuleDefinition,
  type ModuleState,
  PIN_KINDS,
  type Pin,
  type Rail,
} from "./parts/module-definition.ts";
export type { Pair } from "./parts/positions.ts";
export { protectorOhms } from "./parts/protector.ts";
export { type Contact, contactsOf, type Suppression, type Winding } from "./parts/relay.ts";
export { standardJoins } from "./parts/switch.ts";
export { listText, type TextForm } from "./parts/text-form.ts";
export { ampacity } from "./reference/ampacity.ts";
export { COLOUR_NAMES } from "./reference/colours.ts";
export { COPPER_OHM_MM2_PER_M, COPPER_PER_KELVIN, copperFactor, copperOhms } from "./reference/copper.ts";
export { COIL_CELSIUS, SUPPLY_12V } from "./reference/supply.ts";
export { findOnShelf, nearestOnShelf, onlyPart } from "./shelf/find.ts";
export { type ShelfGroup, type ShelfItem, shelf } from "./shelf/shelf.ts";
export type { Dimension } from "./units/quantity.ts";
export { asTyped } from "./units/typed.ts";
