import { z } from "zod";
import { defineFamily, mayBeOpen, mustWire } from "./family.ts";
import { COMMON_PRACTICE, choice, shaped } from "./field.ts";
import { contactFields, joinsSchema, type Pair, terminalsJoined } from "./positions.ts";
import { listsText, recordText } from "./text-form.ts";

const ONE_POLE: Readonly<Record<string, readonly Pair[]>> = { open: [], closed: [["1", "2"]] };
const REST_CLOSED: Readonly<Record<string, readonly Pair[]>> = { rest: [["1", "2"]], pressed: [] };
const TWO_WAY: Readonly<Record<string, readonly Pair[]>> = { "1": [["3", "1"]], "2": [["3", "2"]] };

/** Joins of a switch whose file does not give them, by kind. */
export const standardJoins = (kind: string): Readonly<Record<string, readonly Pair[]>> =>
  kind === "push-break" ? REST_CLOSED : kind === "two-way" ? TWO_WAY : ONE_POLE;

export const switchFamily = defineFamily({
  title: "Switch",
  summary: "A switch moved by a hand, a pedal, a pressure or a temperature. Its first position is its rest.",
  kinds: ["toggle", "push", "push-break", "two-way", "pressure", "temperature", "seat", "gear", "isolator"],
  letters: () => "S",
  words: ["button", "contact", "on off", "turn on"],
  fields: {
    positions: shaped(z.array(z.string().min(1).max(40)).min(2).max(12), (raw) => raw, {
      form: { kind: "with positions" },
      says: "positions in the order in which the switch passes them",
      standard: "the order of `joins`",
    }),
    joins: shaped(joinsSchema, (raw) => raw, {
      form: { kind: "positions" },
      says: "pairs of terminals joined in each position",
      standard: "open, closed with 1 and 2; two-way: 3 to 1, 3 to 2",
    }),
    role: choice(["work", "master", "isolator", "guard"], "work", {
      says: "what the switch is for: it works a load, it is the main switch, it cuts the battery off, it guards a person",
    }),
    stops: shaped(z.record(z.string().max(40), z.array(z.string().min(1).max(60)).max(40)), (raw) => raw, {
      form: listsText("empty: M1 K4"),
      says: "parts that must be off while the switch stands there: what a guard, kill switch or isolator is for",
      standard:
        "an isolator in its first position: everything that cranks, moves, pumps fuel or heats; others: nothing",
      source: COMMON_PRACTICE,
    }),
    returns: shaped(z.record(z.string().max(40), z.string().max(40)), (raw) => raw ?? {}, {
      form: recordText("pressed: rest"),
      says: "positions that spring back, and where to",
    }),
    ...contactFields,
  },
  harm: () => "none",
  terminals: (values, kind) =>
    // A throw that nobody uses may stay open; a switch with two terminals needs both.
    terminalsJoined(values.joins ?? standardJoins(kind), []).map((t, _, all) =>
      all.length <= 2 ? mustWire(t, "terminal") : mayBeOpen(t, "terminal"),
    ),
});
