import type { Loom } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { analyse } from "../report/analyse.ts";
import { rules } from "./index.ts";

/** Every finding of one rule, consequences too, as "severity strength id". */
const seen = (loom: Loom, rule: string): readonly string[] =>
  analyse(loom)
    .findings.filter((f) => f.rule === rule)
    .map((f) => `${f.severity} ${f.strength} ${f.id}`)
    .sort();

const reversed = (loom: Loom): Loom => ({ ...loom, parts: loom.parts.toReversed(), wires: loom.wires.toReversed() });

describe.each(rules)("$id", (rule) => {
  test.each(rule.examples())("$title", ({ loom, expects }) => {
    expect(seen(loom, rule.id)).toEqual(expects);
  });

  test.each(rule.examples())("says the same twice, and in any order of the file: $title", ({ loom }) => {
    const once = JSON.stringify(analyse(loom));
    expect(JSON.stringify(analyse(loom))).toBe(once);
    expect(JSON.stringify(analyse(reversed(loom)))).toBe(once);
  });

  test("says why, what it cannot see and where it is from, and shows a faulty and a clean loom", () => {
    expect(rule.id).toMatch(/^[a-z]+(-[a-z]+)*$/);
    for (const words of [rule.title, rule.why, rule.blindTo, rule.source]) expect(words.length).toBeGreaterThan(10);
    expect(rule.examples().some((e) => e.expects.length > 0)).toBe(true);
    expect(rule.examples().some((e) => e.expects.every((line) => line.startsWith("note")))).toBe(true);
    for (const { expects } of rule.examples())
      for (const line of expects) expect(rule.severities).toContain(line.split(" ")[0]);
  });

  test("titles have at most 12 words, texts at most two sentences of 18 words", () => {
    for (const { loom } of rule.examples())
      for (const f of analyse(loom).findings.filter((x) => x.rule === rule.id)) {
        expect(f.title.split(" ").length, f.title).toBeLessThanOrEqual(12);
        const sentences = f.text.split(/(?<=[.;])\s+(?=[A-Za-z])/);
        expect(f.text.split(/\. (?=[A-Z])/).length, f.text).toBeLessThanOrEqual(2);
        for (const s of sentences) expect(s.split(" ").length, s).toBeLessThanOrEqual(18);
      }
  });
});
