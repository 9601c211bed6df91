import { defineFamily, mustWire, wireOrCase } from "./family.ts";
import { drawFields } from "./load-fields.ts";

export const heater = defineFamily({
  title: "Heater",
  summary: "A resistance made to get hot: heater, glow plug, heated screen.",
  kinds: ["heater", "glow-plug"],
  letters: () => "E",
  words: ["hot", "warm", "glow", "preheat", "screen", "demister", "element", "load"],
  fields: { ...drawFields },
  harm: () => "heat",
  terminals: () => [mustWire("a", "one end"), wireOrCase("b", "other end")],
});
