import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type Loom, parse } from "@loomproof/netlist";

const folder = fileURLToPath(new URL("../../examples/", import.meta.url));

/** Names of the examples, without the endings. */
export const exampleNames: readonly string[] = readdirSync(folder)
  .filter((f) => f.endsWith(".loom.json"))
  .map((f) => f.slice(0, -".loom.json".length))
  .sort();

const exampleFile = (name: string): string => `${folder}${name}.loom.json`;
export const exampleText = (name: string): string => readFileSync(exampleFile(name), "utf8");

export function exampleLoom(name: string): Loom {
  const read = parse(exampleText(name));
  if (!read.ok) throw new Error(`${name}: ${JSON.stringify(read.problems)}`);
  return read.loom;
}

export interface ExpectedFinding {
  readonly id: string;
  readonly severity: string;
  readonly strength: string;
  readonly comesWithIt: readonly string[];
}

export const exampleExpects = (name: string): readonly ExpectedFinding[] =>
  (
    JSON.parse(readFileSync(`${folder}${name}.expected.json`, "utf8")) as {
      readonly findings: readonly ExpectedFinding[];
    }
  ).findings;
