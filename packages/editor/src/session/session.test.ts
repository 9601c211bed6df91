import type { Report } from "@loomproof/analyzer";
import type { Placed } from "@loomproof/drawing";
import type { ResolvedLoom } from "@loomproof/netlist";
import { expect, test } from "vitest";
import { EMPTY, type Opening, step } from "./session.ts";

const opening = (name: string): Opening => ({ name, text: "", isExample: false });
const first = step(EMPTY, { kind: "opened", rev: 1, opening: opening("first.loom.json") });
const progress = { says: "A relay holds itself in", done: 0.5 };

test("answers about a loom that is no longer open change nothing", () => {
  const second = step(first, { kind: "opened", rev: 2, opening: opening("second.loom.json") });
  expect(step(second, { kind: "checking", rev: 1, progress })).toBe(second);
  expect(step(second, { kind: "failed", rev: 1, says: "late" })).toBe(second);
  expect(step(second, { kind: "checking", rev: 2, progress }).progress).toEqual(progress);
});

test("a stopped check shows no progress and says that it was stopped; opening again forgets that", () => {
  const stopped = step(step(first, { kind: "checking", rev: 1, progress }), { kind: "stopped" });
  expect([stopped.isStopped, stopped.progress]).toEqual([true, undefined]);
  expect(step(stopped, { kind: "opened", rev: 2, opening: opening("first.loom.json") }).isStopped).toBe(false);
});

test("a closed loom leaves nothing behind", () => {
  expect(step(first, { kind: "closed" })).toEqual({ ...EMPTY, rev: 1 });
});

test("after an edit the drawing stands until the new one is there, and the report of before is gone", () => {
  const [before, after] = [{ title: "before" }, { title: "after" }] as unknown as readonly ResolvedLoom[];
  const [was, is] = [{}, {}] as unknown as readonly Placed[];
  if (!before || !after || !was || !is) throw new Error("no looms");
  const drawn = step(step(first, { kind: "read", rev: 1, loom: before }), { kind: "drawn", rev: 1, placed: was });
  const proved = step(drawn, { kind: "proved", rev: 1, report: {} as Report });
  const edited = step(proved, { kind: "edited", rev: 2, opening: opening("first.loom.json") });
  expect(edited).toMatchObject({ loom: before, placed: was, report: undefined });
  const read = step(edited, { kind: "read", rev: 2, loom: after });
  expect([read.loom, read.placed]).toEqual([before, was]);
  const again = step(read, { kind: "drawn", rev: 2, placed: is });
  expect([again.loom, again.placed === is]).toEqual([after, true]);
});
