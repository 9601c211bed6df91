import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { coveredFaults, waitingFaults } from "./covered.ts";
import { countOf, readExpected, score } from "./score.ts";

const expected = readExpected();
const faulted = expected.filter((e) => e.variant === "fault").map((e) => e.id);

describe("circuits with verdicts", () => {
  const verdicts = score();
  const told = (outcome: "missed" | "false alarm") =>
    verdicts.filter((v) => v.outcome === outcome).map((v) => `${v.id}: ${v.findings.join(", ")}`);

  test("every fault that the rules of today cover is found", () => {
    expect(told("missed")).toEqual([]);
    expect(countOf(verdicts, "found")).toBe(coveredFaults.length);
  });

  test("repaired twins and innocent look-alikes are silent", () => {
    expect(told("false alarm")).toEqual([]);
  });

  test("there are enough of them to mean something", () => {
    expect(verdicts.length).toBeGreaterThanOrEqual(30);
  });
});

describe("what is covered and what waits", () => {
  test("every faulted circuit is in exactly one of the two lists", () => {
    const listed = [...coveredFaults, ...waitingFaults].map((f) => f.id);
    expect([...listed].sort()).toEqual([...faulted].sort());
  });

  test("the page beside this test tells of every circuit that waits", () => {
    const page = readFileSync(new URL("README.md", import.meta.url), "utf8").replaceAll(/ +/g, " ");
    expect(waitingFaults.filter((w) => !page.includes(`| ${w.id} | ${w.rules.join(", ")} | ${w.why} |`))).toEqual([]);
  });
});
