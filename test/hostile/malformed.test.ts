import { parse } from "@loomproof/netlist";
import { expect, test } from "vitest";
import { malformed } from "./malformed.ts";

const MOST_TOLD = 101;

test("there are at least 100 of them, no two of one name", () => {
  expect(malformed.length).toBeGreaterThanOrEqual(100);
  expect(new Set(malformed.map((m) => m.name)).size).toBe(malformed.length);
});

test.each(malformed)("$name", ({ text, expects }) => {
  const read = parse(text());
  expect(read.ok).toBe(false);
  expect(read.problems.length).toBeGreaterThan(0);
  expect(read.problems.length).toBeLessThanOrEqual(MOST_TOLD);
  expect(read.problems.map((p) => `${p.says} ${p.path} found ${p.found}; expected ${p.expected}`).join("\n")).toMatch(
    expects,
  );
  for (const p of read.problems) {
    expect(p.line).toBeGreaterThan(0);
    expect(p.column).toBeGreaterThan(0);
    expect(p.says.length).toBeLessThan(400);
  }
});
