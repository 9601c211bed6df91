import { analyse, behaviour, type Report } from "@loomproof/analyzer";
import { type Loom, parse, write } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { exampleExpects, exampleLoom, exampleNames, exampleText } from "./examples.ts";

const told = (report: Report) =>
  report.findings
    .filter((f) => f.under === undefined && f.severity !== "note")
    .map(({ id, severity, strength, consequences }) => ({
      id,
      severity,
      strength,
      comesWithIt: [...consequences].sort(),
    }));

const without = (loom: Loom, wires: readonly string[]): Loom => ({
  ...loom,
  wires: loom.wires.filter((w) => !wires.includes(w.id)),
});

const reports = new Map<string, Report>();

/** What is said of an example with some wires open; each is worked out once. */
function reportOf(name: string, open: readonly string[]): Report {
  const key = `${name} ${[...open].sort().join(" ")}`;
  let report = reports.get(key);
  if (report === undefined) {
    report = analyse(without(exampleLoom(name), open));
    reports.set(key, report);
  }
  return report;
}

test("there are examples to look at", () => {
  expect(exampleNames.length).toBeGreaterThanOrEqual(2);
});

describe.each(exampleNames)("%s", (name) => {
  test("every danger, fault and caution that is expected, and nothing more", () => {
    expect(told(reportOf(name, []))).toEqual(exampleExpects(name));
  });

  test("is written back as it stands, and everything was looked at", () => {
    const read = parse(write(exampleLoom(name)));
    expect(read.ok && write(read.loom)).toBe(write(exampleLoom(name)));
    expect(reportOf(name, []).coverage).toMatchObject({ complete: true, left: [] });
    expect(exampleText(name)).toMatch(/invented/);
  });

  test("every relay comes in in some situation, but for those that a finding tells of", () => {
    const table = behaviour(exampleLoom(name), Number.POSITIVE_INFINITY);
    const never = table.rows.filter((r) => r.kind === "relay" && r.cells.every((c) => c === "out")).map((r) => r.id);
    const told = reportOf(name, []).findings.filter((f) => ["unreachable", "wrong-side"].includes(f.rule));
    expect(never.filter((id) => !told.some((f) => f.where.includes(id)))).toEqual([]);
  });

  // The tractor is analysed some fifteen times.
  test("every cut that is told ends its hold, and no smaller part of it does", { timeout: 600_000 }, () => {
    for (const f of reportOf(name, []).findings) {
      const cuts = [...(f.cuts?.harmless ?? []), ...(f.cuts?.breaking ?? [])];
      if (f.rule === "self-hold") expect(cuts.length).toBeGreaterThan(0);
      for (const cut of cuts) {
        const holds = (wires: readonly string[]) => reportOf(name, wires).findings.some((x) => x.id === f.id);
        expect(holds(cut.wires), `${f.id} with ${cut.wires.join(" and ")} open`).toBe(false);
        for (const kept of cut.wires)
          expect(holds(cut.wires.filter((w) => w !== kept)), `${f.id} with all but ${kept}`).toBe(true);
      }
      if (cuts.length > 0 && f.cuts?.harmless.length === 0)
        expect(f.remedy).toContain("No wire can be opened without harm");
    }
  });

  test("with a harmless cut the rest is told as before", () => {
    for (const f of reportOf(name, []).findings)
      for (const cut of f.cuts?.harmless ?? []) {
        const rest = exampleExpects(name).filter((x) => x.id !== f.id);
        expect(told(reportOf(name, cut.wires)), `${f.id} with ${cut.wires.join(" and ")} open`).toEqual(rest);
      }
  });
});
