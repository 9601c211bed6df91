import { describe, expect, test } from "vitest";
import { parse } from "./parse.ts";
import { write } from "./write.ts";

/** A loom of one lamp, one line an item, with lines replaced by number (from 1). */
const loomText = (change: Readonly<Record<number, string>> = {}): string =>
  [
    "{",
    `"format": "loomproof/1",`,
    `"title": "Lamp (invented)",`,
    `"system": {"volts": 12},`,
    `"parts": [`,
    `{"id": "G1", "is": "battery"},`,
    `{"id": "F1", "is": "protector", "kind": "blade", "rated": "10 A"},`,
    `{"id": "E1", "is": "lamp", "watts": "21 W"}`,
    "],",
    `"wires": [`,
    `{"id": "W1", "from": "G1.+", "to": "F1.a"},`,
    `{"id": "W2", "from": "F1.b", "to": "E1.a"},`,
    `{"id": "W3", "from": "E1.b", "to": "G1.-"}`,
    "]",
    "}",
  ]
    .map((line, i) => change[i + 1] ?? line)
    .join("\n");

const problems = (text: string) => {
  const read = parse(text);
  return read.ok ? [] : read.problems;
};

test("a good file is read, and written the same again and again", () => {
  const read = parse(loomText());
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const once = write(read.loom);
  const again = parse(once);
  expect(again.ok && write(again.loom)).toBe(once);
  // Items stand in the order of their ids, whatever the order of the file was.
  expect(again.ok && again.loom.parts.map((p) => p.id)).toEqual(["E1", "F1", "G1"]);
  expect(again.ok && new Set(again.loom.parts)).toEqual(new Set(read.loom.parts));
});

test("a byte order mark and Windows line ends do no harm", () => {
  expect(problems(`\uFEFF${loomText()}`)).toEqual([]);
  expect(problems("\uFEFF")).toHaveLength(1);
  expect(problems(loomText().replaceAll("\n", "\r\n"))).toEqual([]);
});

describe("every problem is told at once, each with its place", () => {
  const bad = loomText({
    7: `{"id": "F1", "is": "protectr", "kind": "blade", "rated": "10 A"},`,
    8: `{"id": "E1", "is": "lamp", "wats": "21 W"}`,
    12: `{"id": "W2", "from": "G1.x", "to": "E1.a"},`,
    13: `{"id": "W2", "from": "E1.b", "to": "E9"}`,
  });
  const told = problems(bad);

  test("by line", () => {
    expect([...new Set(told.map((p) => p.line))].sort((a, b) => (a ?? 0) - (b ?? 0))).toEqual([7, 8, 12, 13]);
  });

  test("the column is where the value or the key stands", () => {
    for (const p of told) {
      const line = bad.split("\n")[(p.line ?? 1) - 1] ?? "";
      expect(line.slice((p.column ?? 1) - 1)).toMatch(/^["{]/);
    }
  });

  test("with the nearest known word, and the terminals that there are", () => {
    const all = told.map((p) => `${p.says}`).join("\n");
    expect(all).toContain(`Did you mean "protector"?`);
    expect(all).toContain("G1.+");
    expect(all).toContain("W2");
  });
});

test.each([
  ["__proto__ as a key", loomText({ 8: `{"id": "E1", "is": "lamp", "__proto__": {"harm": "none"}}` })],
  ["constructor as an id of a family", loomText({ 8: `{"id": "E1", "is": "constructor"}` })],
  ["the same key twice", loomText({ 8: `{"id": "E1", "is": "lamp", "watts": "21 W", "watts": "5 W"}` })],
  ["a number without quotes that JSON does not know", loomText({ 4: `"system": {"volts": NaN},` })],
  ["an unended text", loomText({ 3: `"title": "Lamp,` })],
  ["nothing", ""],
  ["a list", "[]"],
  ["ten thousand brackets", "[".repeat(10_000)],
])("%s is a problem, never a crash", (_, text) => {
  expect(problems(text).length).toBeGreaterThan(0);
  expect({}).not.toHaveProperty("harm");
});
