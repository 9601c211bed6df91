import { readFileSync } from "node:fs";
import { fileURLToPath, pathToFileURL } from "node:url";
import { analyse } from "@loomproof/analyzer";
import { type Loom, parse } from "@loomproof/netlist";
import type { Expected } from "./expected.ts";
import { isCovered, judge, type Verdict, type VerdictMap } from "./judge.ts";

// node --import tsx test/cases/score.ts [ID ...]
// Analyses every covered circuit and says what was found, missed, or told without reason.

const here = fileURLToPath(new URL(".", import.meta.url));

export const readExpected = (): readonly Expected[] =>
  JSON.parse(readFileSync(`${here}expected.json`, "utf8")) as Expected[];

const readMap = (): VerdictMap =>
  (JSON.parse(readFileSync(`${here}verdict-map.json`, "utf8")) as { map: VerdictMap }).map;

/** The loom of a circuit. Throws when it is not a loom: the files here are written by a program. */
export function readLoom(id: string): Loom {
  const read = parse(readFileSync(`${here}looms/${id}.loom.json`, "utf8"));
  if (!read.ok) throw new Error(`${id}: ${JSON.stringify(read.problems)}`);
  return read.loom;
}

/** Verdicts on every covered circuit, or on those named. */
export function score(ids: readonly string[] = []): readonly Verdict[] {
  const map = readMap();
  return readExpected()
    .filter((e) => (ids.length > 0 ? ids.includes(e.id) : isCovered(e)))
    .map((e) => judge(e, analyse(readLoom(e.id)).findings, map));
}

export const countOf = (verdicts: readonly Verdict[], outcome: Verdict["outcome"]): number =>
  verdicts.filter((v) => v.outcome === outcome).length;

function print(verdicts: readonly Verdict[]): void {
  for (const v of verdicts)
    process.stdout.write(
      `${v.id.padEnd(6)} ${v.expects.padEnd(10)} ${v.outcome.padEnd(12)} ${v.findings.join(", ")}\n`,
    );
  const sums = (["found", "missed"] as const).map((o) => `${o} ${countOf(verdicts, o)}`);
  process.stdout.write(`\n${sums.join(", ")}, false alarms ${countOf(verdicts, "false alarm")}\n`);
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const verdicts = score(process.argv.slice(2));
  print(verdicts);
  process.exitCode = verdicts.some((v) => v.outcome === "missed" || v.outcome === "false alarm") ? 1 : 0;
}
