import { analyse, analyseInSlices, type Finding, type Report, rules, type SoFar } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { expect, test } from "vitest";
import { isStale, listedIn, listedSoFar } from "./listed.ts";

const example = (rule: string, at = 0): Loom => {
  const loom = rules.find((r) => r.id === rule)?.examples()[at]?.loom;
  if (loom === undefined) throw new Error(`${rule} has no example ${at}`);
  return loom;
};

function soFarOf(loom: Loom): readonly SoFar[] {
  const told: SoFar[] = [];
  for (const { found } of analyseInSlices(loom, { early: true })) if (found !== undefined) told.push(found());
  return told;
}

const loom = example("self-hold");
const report = analyse(loom);
/** The same loom, of which one wire was edited. */
const edited = (wire: string): Loom => ({
  ...loom,
  wires: loom.wires.map((w) => (w.id === wire ? { ...w, length: "3 m" } : w)),
});
const titles = (findings: readonly { readonly finding: Finding }[]) => findings.map((l) => l.finding.id);

test("before there is a report, what is found is listed as it comes, and says of what it is not known what ends it", () => {
  const [first, ...others] = soFarOf(loom);
  if (first === undefined) throw new Error("nothing is told before the end");
  const listed = listedSoFar([], first, loom);
  expect(titles(listed)).toContain("self-hold:K1");
  expect(listed.filter((l) => l.isUncut).map((l) => l.finding.id)).toEqual(first.uncut);
  const last = others.reduce((list, soFar) => listedSoFar(list, soFar, loom), listed);
  expect([listed, last].map((list) => list.some((l) => l.isUnsure))).toEqual([true, false]);
  expect(last.some((l) => l.isUncut)).toBe(false);
  expect(titles(last)).toEqual(titles(listedIn(report, loom)));
});

test("what an edit did not touch keeps its look and stays folded; what it touched is told anew", () => {
  const before = listedIn(report, loom);
  const held = before.find((l) => l.finding.cuts !== undefined);
  const wire = held?.finding.where.find((at) => loom.wires.some((w) => w.id === at)) ?? loom.wires[0]?.id ?? "";
  const now = edited(wire);
  for (const soFar of soFarOf(now)) {
    const listed = listedSoFar(before, soFar, now);
    for (const l of listed) {
      const old = before.find((b) => b.finding.id === l.finding.id);
      if (old === undefined) continue;
      const { consequences: _, ...look } = l.finding;
      if (!isStale(old, now)) expect(old.finding).toMatchObject(look);
      else expect(l.loom).toBe(now);
      expect(l.finding.under).toBe(old.finding.under);
    }
  }
});

test("once all runs are looked at, what is not found any more is gone, and what was folded under it stands by itself", () => {
  const before = listedIn(report, loom);
  const [first] = before;
  if (first === undefined) throw new Error("nothing was found");
  const left: Finding = { ...first.finding, id: "sneak-path:child", consequences: [] };
  const child: Finding = { ...left, under: "gone:parent" };
  const parent: Finding = { ...first.finding, id: "gone:parent", consequences: ["sneak-path:child"] };
  const list = [parent, child].map((finding) => ({ finding, loom, isUncut: false, isUnsure: false }));
  const soFar = (ofAllRuns: boolean): SoFar => ({
    findings: [left],
    uncut: [],
    ofAllRuns,
  });
  expect(titles(listedSoFar(list, soFar(false), loom))).toEqual(["gone:parent", "sneak-path:child"]);
  const [one, ...others] = listedSoFar(list, soFar(true), loom);
  expect([one?.finding.id, one?.finding.under, others]).toEqual(["sneak-path:child", undefined, []]);
});

test("above what is folded stands what is folded under it, and nothing that is not there", () => {
  const all = report.findings.map((finding) => ({ finding, loom, isUncut: false, isUnsure: false }));
  for (const soFar of soFarOf(loom)) {
    const listed = listedSoFar(all, soFar, loom);
    const ids = titles(listed);
    for (const { finding } of listed) {
      if (finding.under !== undefined) expect(ids).toContain(finding.under);
      expect(finding.consequences).toEqual(
        listed.flatMap((l) => (l.finding.under === finding.id ? [l.finding.id] : [])),
      );
    }
  }
  const empty: Report = { ...report, findings: [] };
  expect(listedIn(empty, loom)).toEqual([]);
});
