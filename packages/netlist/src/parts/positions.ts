import { z } from "zod";
import { COMMON_PRACTICE, FROM_MEMORY, quantity, shaped, span } from "./field.ts";
import { recordText } from "./text-form.ts";

// What key switches and other switches share: named positions, each with the pairs of terminals it joins.

export type Pair = readonly [string, string];

const name = z.string().min(1).max(40);
const pair = z.tuple([name, name]);

/** `{"run": [["30", "15"]]}`: the pairs of terminals joined in each position. */
export const joinsSchema = z.record(name, z.array(pair).max(40));
/** `{"run>start": "make-first"}`: how neighbours are passed. */
const betweenSchema = z.record(z.string().max(90), z.enum(["break-first", "make-first"]));

export const contactFields = {
  between: shaped(betweenSchema, (raw) => raw ?? {}, {
    form: recordText("run>start: make-first"),
    says: "how neighbouring positions are passed: break-first opens what they do not share, make-first closes both",
    standard: "break-first",
    source: COMMON_PRACTICE,
  }),
  contactOhms: quantity("ohms", 0.005, {
    says: "resistance of a closed contact",
    standard: "5 mohm",
    source: FROM_MEMORY,
  }),
  passing: span(
    "seconds",
    { least: 0.005, most: 0.3 },
    {
      says: "time a hand needs from one position to the next",
      standard: "5 ms to 300 ms",
      source: COMMON_PRACTICE,
    },
  ),
  rated: quantity("amps", undefined, { says: "rated current of a contact" }),
} as const;

/** Every terminal that some position joins, in order of first mention. */
export function terminalsJoined(joins: Readonly<Record<string, readonly Pair[]>>, extra: readonly string[]): string[] {
  return [...new Set([...Object.values(joins).flat(2), ...extra])];
}
