import type { Loom } from "../loom/schema.ts";
import { readTerminal } from "../loom/terminal-ref.ts";
import { type ModuleDefinitionText, moduleDefinitionSchema } from "../parts/module-definition.ts";
import { withoutDrawn } from "./drawn.ts";
import { type Forgot, forget, type IsIt } from "./forget.ts";
import { inOrder } from "./keyed.ts";
import { pinInOrder, withoutPin, withPinRenamed } from "./pin-names.ts";
import { renamed } from "./rename.ts";
import { removeWire } from "./wires.ts";

// Edits of a definition's pin table. Every module made after it changes with it.

type PinText = ModuleDefinitionText["pins"][number];
type RailText = NonNullable<ModuleDefinitionText["rails"]>[number];

/** Any change of one definition. */
const changeDefinition = (
  loom: Loom,
  id: string,
  make: (definition: ModuleDefinitionText) => ModuleDefinitionText,
): Loom => ({ ...loom, definitions: loom.definitions.map((d) => (d.id === id ? make(d) : d)) });

/** Sets one value of a definition itself, such as its title; undefined takes it away. */
export const setDefinition = (
  loom: Loom,
  id: string,
  key: "title" | "kind" | "harm" | "note",
  value: string | undefined,
): Loom =>
  changeDefinition(loom, id, (d) => inOrder({ ...d, [key]: value }, moduleDefinitionSchema) as ModuleDefinitionText);

/** Sets one value of a pin as the file writes it; undefined takes it away. Its number has an edit of its own. */
export const setPin = (
  loom: Loom,
  definition: string,
  pin: string,
  key: Exclude<keyof PinText, "pin">,
  value: unknown,
): Loom =>
  changeDefinition(loom, definition, (d) => ({
    ...d,
    pins: d.pins.map((p) => (p.pin === pin ? pinInOrder({ ...p, [key]: value }) : p)),
  }));

/** Sets one value of a rail as the file writes it; undefined takes it away. */
export const setRail = (
  loom: Loom,
  definition: string,
  rail: string,
  key: Exclude<keyof RailText, "id">,
  value: unknown,
): Loom =>
  changeDefinition(loom, definition, (d) => ({
    ...d,
    rails: (d.rails ?? []).map((r) =>
      r.id === rail
        ? (inOrder({ ...r, [key]: value }, moduleDefinitionSchema.shape.rails.unwrap().element) as RailText)
        : r,
    ),
  }));

/** A new pin at the end, with the number after the greatest. */
export function addPin(loom: Loom, definition: string): { readonly loom: Loom; readonly pin: string } {
  const numbers = loom.definitions.find((d) => d.id === definition)?.pins.map((p) => Number(p.pin)) ?? [];
  const pin = String(Math.max(0, ...numbers.filter((n) => Number.isSafeInteger(n))) + 1);
  const added: PinText = { pin, kind: "plain" };
  return { loom: changeDefinition(loom, definition, (d) => ({ ...d, pins: [...d.pins, added] })), pin };
}

/** Takes one pin of a definition away: see `withoutPin`. Its wires go too, and what is said of it. The last pin stays. */
export function removePin(loom: Loom, definition: string, pin: string): Forgot & { readonly wires: readonly string[] } {
  if (loom.definitions.find((d) => d.id === definition)?.pins.length === 1) return { loom, wires: [], also: [] };
  const isIt = isOnPin(loom, definition, pin);
  const wires = loom.wires.filter((w) => isIt(w.from) || isIt(w.to)).map((w) => w.id);
  const rest = forget(wires.reduce(removeWire, loom), isIt, wires);
  const without = changeDefinition(rest.loom, definition, (d) => withoutPin(d, pin));
  return { loom: withoutDrawn(without, { routes: wires }), wires, also: rest.also };
}

/** Gives a pin another number, in the definition and in everything that names it. The new one must be free. */
export function renamePin(loom: Loom, definition: string, from: string, to: string): Loom {
  if (loom.definitions.find((d) => d.id === definition)?.pins.some((p) => p.pin === to))
    throw new Error(`renamePin: ${to} is there already`);
  const isIt = isOnPin(loom, definition, from);
  const outside = renamed(
    loom,
    (name) => name,
    (text) => (isIt(text) ? `${readTerminal(text).part}.${to}` : text),
  );
  return changeDefinition(outside, definition, (d) => withPinRenamed(d, from, to));
}

/** Whether a text names this pin of any module made after the definition. */
function isOnPin(loom: Loom, definition: string, pin: string): IsIt {
  const modules = new Set(loom.parts.filter((p) => p.of === definition).map((p) => p.id));
  return (text) => {
    const { part, terminal } = readTerminal(text);
    return text.includes(".") && terminal === pin && modules.has(part);
  };
}
