import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { naturalOrder, write } from "@loomproof/netlist";
import type { CaseFile } from "./case-types.ts";
import { convertCase } from "./convert.ts";

// node --import tsx test/cases/convert-all.ts PATH_TO_cases.json
// Writes every circuit that the format can say to looms/, and what they must show to expected.json.

const [, , source] = process.argv;
if (source === undefined) throw new Error("Say where the circuits are: convert-all.ts PATH_TO_cases.json");

const here = fileURLToPath(new URL(".", import.meta.url));
const { cases } = JSON.parse(readFileSync(source, "utf8")) as CaseFile;
const sorted = [...cases].sort((a, b) => naturalOrder(a.id, b.id));

rmSync(`${here}looms`, { recursive: true, force: true });
mkdirSync(`${here}looms`, { recursive: true });
const expected: string[] = [];
const left: string[] = [];
for (const one of sorted) {
  const converted = convertCase(one);
  if (!converted.ok) {
    left.push(`${one.id}: ${converted.why.join("; ")}`);
    continue;
  }
  writeFileSync(`${here}looms/${one.id}.loom.json`, write(converted.loom));
  expected.push(JSON.stringify(converted.expected));
}
writeFileSync(`${here}expected.json`, `[\n${expected.join(",\n")}\n]\n`);

process.stdout.write(`${expected.length} of ${sorted.length} circuits converted\n`);
for (const line of left) process.stdout.write(`not said: ${line}\n`);
