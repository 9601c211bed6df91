import { analyse, type Finding } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { readExpected, readLoom } from "../cases/score.ts";
import { exampleLoom, exampleNames } from "../examples/examples.ts";
import { renamed } from "./names.ts";

/** What is said about a loom, without words, numbers and the order of subjects. */
const verdicts = (findings: readonly Finding[], nameOf: (id: string) => string = (id) => id): readonly string[] =>
  findings.map((f) => verdict(f, nameOf)).sort();

function verdict(f: Finding, nameOf: (id: string) => string): string {
  const subjects = f.id
    .slice(f.rule.length + 1)
    .split("+")
    .map(nameOf)
    .sort()
    .join("+");
  return `${f.rule}:${subjects} ${f.severity} ${f.strength} ${f.hold?.kind ?? ""}`;
}

const looms: readonly (readonly [string, () => Loom])[] = [
  ...exampleNames.map((n) => [n, () => exampleLoom(n)] as const),
  ...readExpected().map((e) => [e.id, () => readLoom(e.id)] as const),
];

describe("verdicts do not hang on names, nor on the order of the file", () => {
  test.each(looms)("%s", (_, make) => {
    // What the owner says of parts, by name, is left out.
    const loom = { ...make(), meant: [], intents: [] };
    const { findings } = analyse(loom);
    for (const seed of [1, 2]) {
      const other = renamed(loom, seed);
      expect(verdicts(analyse(other.loom).findings)).toEqual(verdicts(findings, other.nameOf));
    }
  });
});
