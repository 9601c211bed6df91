import { setValue } from "../edit/parts.ts";
import type { Loom } from "../loom/schema.ts";
import type { Pair } from "../parts/positions.ts";
import { pairsText, type ReadLine } from "../parts/text-form.ts";

type Joins = Readonly<Record<string, readonly Pair[]>>;

/** The positions of a switch in their order: "off: nothing; run: 30-15". */
export const positionsLine = (joins: Joins, positions: readonly string[] = Object.keys(joins)): string =>
  positions.map((p) => pairsText.write({ [p]: joins[p] ?? [] })).join("; ");

/** Whether the line is one that can be set. */
export const readPositions = (line: string): ReadLine => pairsText.read(line);

/**
 * Sets what a switch joins, and the order of its positions beside it: of a group alone the order of its keys is no
 * difference. An empty line leaves both to the catalogue. The line must be one that `readPositions` takes.
 */
export function setPositions(loom: Loom, id: string, line: string): Loom {
  const read = line.trim() === "" ? undefined : pairsText.read(line);
  if (read?.ok === false) throw new Error(`setPositions: ${read.expected}`);
  const names = line.split(";").flatMap((one) => one.split(":")[0]?.trim() || []);
  const joined = setValue(loom, id, "joins", read?.value);
  return setValue(joined, id, "positions", read === undefined ? undefined : names);
}
