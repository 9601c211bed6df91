import { parseQuantity } from "../units/quantity.ts";
import { foundText, type Path, type Trouble } from "./problem.ts";
import { valueAt } from "./schema-walk.ts";
import { placeWords } from "./words.ts";

// What Loomproof must not be used on. Refused while reading, so that nobody trusts a proof of it.

const MOST_VOLTS = 60;
const SYSTEMS: readonly (readonly [words: RegExp, refusal: string])[] = [
  [
    /(?<![a-z])(air[\s_-]?bags?|(belt[\s_-]?)?pre-?tensioners?)(?![a-z])/i,
    "Restraint systems (airbags, belt pretensioners) are out of scope: leave them to the maker.",
  ],
  [/(?<![a-z])anti[\s_-]?lock(?![a-z])/i, "Anti-lock brakes are out of scope: leave them to the maker."],
];

/** Parts of the file that say what something is. A note may mention anything. */
const NAMED: readonly (readonly [section: string, keys: readonly string[]])[] = [
  ["definitions", ["id", "title"]],
  ["parts", ["label", "of"]],
];

/** Refusals of a file, on whatever can be read of it. */
export function scopeTroubles(root: unknown): Trouble[] {
  const list: Trouble[] = [...named(root, ["title"]), ...tooHigh(root, ["system", "volts"])];
  for (const [section, keys] of NAMED)
    for (const i of indices(root, section)) for (const key of keys) list.push(...named(root, [section, i, key]));
  for (const i of indices(root, "parts"))
    if (valueAt(root, ["parts", i, "is"]) === "battery") list.push(...tooHigh(root, ["parts", i, "volts"]));
  return list;
}

const indices = (root: unknown, section: string): number[] => {
  const list = valueAt(root, [section]);
  return Array.isArray(list) ? [...list.keys()] : [];
};

function named(root: unknown, path: Path): Trouble[] {
  const text = valueAt(root, path);
  if (typeof text !== "string") return [];
  return SYSTEMS.filter(([words]) => words.test(text.slice(0, 500))).map(([, says]) => ({
    path,
    of: "value",
    found: foundText(text),
    expected: "a system within the scope of Loomproof",
    says,
  }));
}

function tooHigh(root: unknown, path: Path): Trouble[] {
  const value = valueAt(root, path);
  const read = typeof value === "string" && value.length <= 40 ? parseQuantity(value, "volts") : undefined;
  const volts = read?.ok === true ? read.value : typeof value === "number" ? value : 0;
  if (volts <= MOST_VOLTS) return [];
  const says = `High voltage is out of scope: ${placeWords(root, path)} is above ${MOST_VOLTS} V, which can kill.`;
  return [{ path, of: "value", found: foundText(value), expected: `at most ${MOST_VOLTS} V`, says }];
}
