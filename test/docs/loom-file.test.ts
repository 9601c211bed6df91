import { readFileSync } from "node:fs";
import { analyse } from "@loomproof/analyzer";
import { type Loom, parse } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";

const page = readFileSync(new URL("../../docs/loom-file.md", import.meta.url), "utf8");
const [, json = ""] = /```json\n([\s\S]*?)```/.exec(page) ?? [];
const told = [...page.matchAll(/^- `([a-z-]+:[\w+]+)`$/gm)].map((m) => m[1]);

const read = (text: string): Loom => {
  const result = parse(text);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.loom;
};
const found = (text: string) => analyse(read(text)).findings.filter((f) => f.severity !== "note");

describe("the guide to the loom file", () => {
  test("its loom gives the findings that it tells", () => {
    expect(told.length).toBeGreaterThan(0);
    expect(found(json).map((f) => f.id)).toEqual(told);
  });

  test("its cure leaves nothing to find", () => {
    const cured = json.replace('"id": "W3", "from": "K1.87"', '"id": "W3", "from": "F1.b"');
    expect(cured).not.toBe(json);
    expect(found(cured)).toEqual([]);
  });
});
