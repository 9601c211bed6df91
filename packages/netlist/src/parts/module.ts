import { defineFamily, type Terminal } from "./family.ts";
import type { ModuleDefinitionText } from "./module-definition.ts";

/** What a pin tells of itself, in the file and in memory alike. */
type PinOutline = Pick<ModuleDefinitionText["pins"][number], "pin" | "name" | "kind">;

/** Terminals of a module: its pins. Only supply and ground must be wired. */
export const moduleTerminals = (definition: { readonly pins: readonly PinOutline[] }): readonly Terminal[] =>
  definition.pins.map((p) => ({
    name: p.pin,
    says: p.name ?? p.pin,
    needs: p.kind === "supply" || p.kind === "ground" ? "wire" : "may be open",
  }));

export const moduleFamily = defineFamily({
  title: "Module",
  summary: "A controller, power module or other electronics, as its definition says (`of`).",
  kinds: ["module"],
  letters: () => "A",
  words: ["controller", "control unit", "ecu", "brain", "computer", "black box", "electronics", "box", "solid state"],
  fields: {},
  harm: () => "none",
  // The pins stand in the definition; `resolve` puts them in.
  terminals: () => [],
});
