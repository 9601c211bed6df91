import { defineFamily, mustWire } from "./family.ts";
import { drawFields } from "./load-fields.ts";

export const injector = defineFamily({
  title: "Injector",
  summary: "A fuel injector. It opens as long as it is fed and its return is switched to ground.",
  kinds: ["injector"],
  letters: () => "Y",
  words: ["nozzle", "fuel", "spray", "valve", "injection", "load"],
  fields: { ...drawFields },
  harm: () => "fuel",
  terminals: () => [mustWire("1", "one end"), mustWire("2", "other end")],
});
