import type { Loom } from "@loomproof/netlist";
import { expect, test } from "vitest";
import { rules } from "../rules/index.ts";
import { SEVERITIES, type Severity } from "../rules/rule.ts";
import { analyse, analyseInSlices } from "./analyse.ts";
import type { SoFar } from "./progress.ts";
import type { Report } from "./report.ts";

const faulty: Loom | undefined = rules.find((r) => r.id === "self-hold")?.examples()[0]?.loom;
if (faulty === undefined) throw new Error("self-hold has no example");

test("slices say what is looked at, always further on, and end with the same report", () => {
  const said: string[] = [];
  const done: number[] = [];
  const slices = analyseInSlices(faulty);
  let next = slices.next();
  for (; !next.done; next = slices.next()) {
    said.push(next.value.says);
    done.push(next.value.done);
  }
  expect(said).toContain("Every switch position, in every order: as usual");
  expect(said).toContain("Every switch position, in every order: cold, with a full battery");
  expect(said.some((s) => s.startsWith("What ends it: "))).toBe(true);
  expect(done).toEqual(done.toSorted((a, b) => a - b));
  expect(done.every((d) => d >= 0 && d < 1)).toBe(true);
  expect(next.value).toEqual(analyse(faulty));
});

test("nothing is computed before the first slice is asked for, and none after the last that was", () => {
  const slices = analyseInSlices(faulty);
  expect(slices.next().done).toBe(false);
  expect(slices.return(analyse(faulty)).done).toBe(true);
  expect(slices.next().done).toBe(true);
});

/** What is told before the end, each asked for in its time, and the report. */
function toldBy(loom: Loom): { readonly told: readonly SoFar[]; readonly report: Report } {
  const told: SoFar[] = [];
  const slices = analyseInSlices(loom, { early: true });
  let next = slices.next();
  for (; !next.done; next = slices.next()) if (next.value.found !== undefined) told.push(next.value.found());
  return { told, report: next.value };
}

test("what is told before the end is in the report, no graver than there; once of all runs, nothing else is", () => {
  for (const loom of rules.flatMap((r) => r.examples().map((e) => e.loom))) {
    const { told, report } = toldBy(loom);
    const by = new Map(report.findings.map((f) => [f.id, f]));
    const rank = (severity: Severity | undefined) => (severity === undefined ? -1 : SEVERITIES.indexOf(severity));
    for (const { findings, uncut, ofAllRuns } of told) {
      for (const f of findings) expect(rank(f.severity), f.id).toBeLessThanOrEqual(rank(by.get(f.id)?.severity));
      if (!ofAllRuns) continue;
      expect(findings.map((f) => f.id)).toEqual(report.findings.map((f) => f.id));
      for (const f of findings) expect(f.cuts).toEqual(uncut.includes(f.id) ? undefined : by.get(f.id)?.cuts);
    }
    expect(told.at(-1)?.uncut).toEqual([]);
    expect(report).toEqual(analyse(loom));
  }
});

test("so far it is told first of the usual run, then of all, then with what ends one hold after another", () => {
  const { told } = toldBy(faulty);
  expect(told.map((t) => [t.ofAllRuns, t.uncut.length])).toEqual([
    [false, 1],
    [true, 1],
    [true, 0],
  ]);
});
