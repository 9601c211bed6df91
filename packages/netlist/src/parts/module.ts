import { defineFamily, type Terminal } from "./family.ts";
import type { ModuleDefinition } from "./module-definition.ts";

/** Terminals of a module: its pins. Only supply and ground must be wired. */
export const moduleTerminals = (definition: ModuleDefinition): readonly Terminal[] =>
  definition.pins.map((p) => ({
    name: p.pin,
    says: p.name,
    needs: p.kind === "supply" || p.kind === "ground" ? "wire" : "may be open",
  }));

export const moduleFamily = defineFamily({
  title: "Module",
  summary: "A controller, power module or other electronics, as its definition says (`of`).",
  kinds: ["module"],
  fields: {},
  harm: () => "none",
  // The pins stand in the definition; `resolve` puts them in.
  terminals: () => [],
});
