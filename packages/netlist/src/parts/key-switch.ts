import { z } from "zod";
import { defineFamily, mayBeOpen, mustWire } from "./family.ts";
import { shaped } from "./field.ts";
import { contactFields, joinsSchema, type Pair, terminalsJoined } from "./positions.ts";
import { recordText } from "./text-form.ts";

// Numbers after DIN 72552: 30 from the battery, 15 switched, 50 starter, 75 accessories.
const JOINS: Readonly<Record<string, readonly Pair[]>> = {
  off: [],
  accessories: [["30", "75"]],
  run: [
    ["30", "75"],
    ["30", "15"],
  ],
  start: [
    ["30", "15"],
    ["30", "50"],
  ],
};

export const keySwitch = defineFamily({
  title: "Key switch",
  summary: "The key. Its first position is off; it passes its positions in order.",
  kinds: ["key"],
  letters: () => "S",
  words: ["ignition switch", "ignition lock", "barrel", "start", "run", "off", "turn"],
  fields: {
    positions: shaped(z.array(z.string().min(1).max(40)).min(2).max(12), (raw) => raw, {
      form: { kind: "with positions" },
      says: "positions in the order in which the key passes them",
      standard: "the order of `joins`",
    }),
    joins: shaped(joinsSchema, (raw) => raw ?? JOINS, {
      form: { kind: "positions" },
      says: "pairs of terminals joined in each position",
      standard: "off, accessories, run, start with 30, 75, 15, 50",
      source: "terminal numbers: DIN 72552",
    }),
    returns: shaped(z.record(z.string().max(40), z.string().max(40)), (raw) => raw ?? {}, {
      form: recordText("start: run"),
      says: "positions that spring back, and where to",
    }),
    ...contactFields,
  },
  harm: () => "none",
  terminals: (values) =>
    terminalsJoined(values.joins, []).map((t) =>
      t === "30" ? mustWire(t, "feed from the battery") : mayBeOpen(t, "switched terminal"),
    ),
});
