import { defineFamily, mustWire, wireOrCase } from "./family.ts";
import { drawFields } from "./load-fields.ts";

export const lamp = defineFamily({
  title: "Lamp",
  summary: "A filament lamp. Its current falls far less than its voltage.",
  kinds: ["filament", "indicator"],
  letters: (kind) => (kind === "indicator" ? "P" : "E"),
  words: ["light", "bulb", "headlight", "work light", "tail light", "globe", "load"],
  fields: { ...drawFields },
  harm: () => "none",
  terminals: () => [mustWire("a", "one end"), wireOrCase("b", "other end")],
});
