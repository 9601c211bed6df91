import type { Finding, Report } from "@loomproof/analyzer";
import { newLoom } from "@loomproof/netlist";
import { expect, test } from "vitest";
import { EMPTY, step } from "./session.ts";

const before = { ...newLoom(), title: "before" };
const after = { ...newLoom(), title: "after" };
const first = step(EMPTY, { kind: "asked", rev: 1, loom: before });
const progress = { says: "A relay holds itself in", done: 0.5 };
const report = { findings: [] as readonly Finding[] } as Report;

test("answers to what was asked before change nothing", () => {
  const second = step(first, { kind: "asked", rev: 2, loom: after });
  expect(step(second, { kind: "checking", rev: 1, progress })).toBe(second);
  expect(step(second, { kind: "failed", rev: 1, says: "late" })).toBe(second);
  expect(step(second, { kind: "checking", rev: 2, progress }).progress).toEqual(progress);
});

test("a stopped check shows no progress and says that it was stopped; asking again forgets that", () => {
  const stopped = step(step(first, { kind: "checking", rev: 1, progress }), { kind: "stopped" });
  expect([stopped.isStopped, stopped.isChecking, stopped.progress]).toEqual([true, false, undefined]);
  expect(step(stopped, { kind: "checking", rev: 1, progress })).toBe(stopped);
  expect(step(stopped, { kind: "asked", rev: 2, loom: before }).isStopped).toBe(false);
});

test("another loom leaves nothing of the one before", () => {
  expect(step(first, { kind: "opened", opened: 7 })).toEqual({ ...EMPTY, rev: 1, opened: 7 });
});

test("after an edit the report of before stands, with the loom that it is about, until there is a newer one", () => {
  const proved = step(first, { kind: "proved", rev: 1, report });
  const edited = step(proved, { kind: "asked", rev: 2, loom: after });
  expect([edited.report, edited.reported, edited.isChecking]).toEqual([report, before, true]);
  const again = { ...report };
  const done = step(edited, { kind: "proved", rev: 2, report: again });
  expect([done.report === again, done.reported, done.isChecking]).toEqual([true, after, false]);
});
