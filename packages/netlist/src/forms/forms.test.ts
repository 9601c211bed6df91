import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parse } from "../loom/parse.ts";
import type { Loom } from "../loom/schema.ts";
import { sketch } from "../loom/sketch.ts";
import { write } from "../loom/write.ts";
import { families, familyIds } from "../parts/families.ts";
import { contactsText, jsonText, listsText, pairsText, windingsText } from "../parts/text-form.ts";
import { clampText, pullText } from "./clamp.ts";
import { fieldsOf } from "./fields.ts";
import { asInFile, withItem } from "./item.ts";
import { formFor, readLine } from "./lines.ts";
import { positionsLine, setPositions } from "./positions.ts";

const example = (name: string): Loom => {
  const read = parse(readFileSync(new URL(`../../../../examples/${name}.loom.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(`${name} is no loom`);
  return read.loom;
};

describe("one line for a shape", () => {
  test.each([
    [
      pairsText,
      {
        off: [],
        start: [
          ["30", "15"],
          ["30", "50"],
        ],
      },
      "off: nothing; start: 30-15 30-50",
    ],
    [contactsText, [{ common: "30", make: "87", break: "87a" }], "30 makes 87, breaks 87a"],
    [
      contactsText,
      [
        { common: "30", break: "87a" },
        { common: "31", make: "88" },
      ],
      "30 breaks 87a; 31 makes 88",
    ],
    [windingsText, [{ between: ["86", "85"] }], "86-85"],
    [
      windingsText,
      [
        { between: ["86", "85"], ohms: "90 ohm" },
        { between: ["1", "2"], ohms: "45 ohm", turns: 0.5 },
      ],
      "86-85 90 ohm; 1-2 45 ohm, 0.5 turns",
    ],
    [windingsText, [{ between: ["86", "85"], turns: 2 }], "86-85 2 turns"],
    [listsText("a: M1"), { empty: ["M1", "K4"], sat: [] }, "empty: M1 K4; sat: nothing"],
    [clampText, { kind: "zener", volts: "42 V" }, "zener 42 V"],
    [clampText, { kind: "diode", to: "inside" }, "diode to inside"],
    [clampText, "unknown", "unknown"],
    [pullText, { up: "2.2 kohm", to: "7" }, "up 2.2 kohm to 7"],
    [pullText, { down: "10 kohm" }, "down 10 kohm"],
  ])("%#: %j", (form, raw, line) => {
    expect(form.write(raw)).toBe(line);
    expect(readLine(line, form)).toEqual({ ok: true, value: raw });
    expect(formFor(raw, form)).toBe(form);
  });

  test.each([
    [pairsText, "run: 30"],
    [pairsText, "run: 30-15; run: 30-50"],
    [contactsText, "30 does 87"],
    [windingsText, "86 90 ohm"],
    [clampText, "some"],
    [pullText, "sideways 2 ohm"],
  ])("%#: %j is refused with what was expected", (form, line) => {
    expect(readLine(line, form)).toMatchObject({ ok: false });
  });

  test("an empty line is the catalogue's value", () => {
    expect(readLine(" ", pairsText)).toEqual({ ok: true, value: undefined });
  });

  test("what a line cannot say is shown as in the file", () => {
    const odd = { "a;b": [["1", "2"]] };
    expect(formFor(odd, pairsText)).toBe(jsonText);
    expect(jsonText.read(jsonText.write(odd))).toEqual({ ok: true, value: odd });
  });
});

test("every value of every example can be shown, and reads back as it was", () => {
  let lines = 0;
  for (const loom of [example("fuel-feed"), example("marigold-first")])
    for (const part of loom.parts)
      for (const { key, form } of fieldsOf(part.is)) {
        if (form.kind !== "line" || part[key] === undefined) continue;
        const shown = formFor(part[key], form.text);
        expect(shown.read(shown.write(part[key]))).toEqual({ ok: true, value: part[key] });
        lines++;
      }
  expect(lines).toBeGreaterThan(5);
});

test("every field of every family has a form that fits its schema: what is a quantity takes one", () => {
  for (const family of familyIds)
    for (const { key, form } of fieldsOf(family)) {
      const { schema, unit } =
        (
          families[family].fields as Record<
            string,
            { schema: { safeParse: (v: unknown) => { success: boolean } }; unit: string | undefined }
          >
        )[key] ?? {};
      if (form.kind === "quantity" || form.kind === "span") expect(form.unit).toBe(unit);
      if (form.kind === "choice") for (const word of form.words) expect(schema?.safeParse(word).success).toBe(true);
    }
});

describe("positions of a switch", () => {
  const loom = sketch({ parts: { "G1 battery": {}, "S1 switch two-way": {} }, wires: [] });
  const s1 = (l: Loom) => l.parts.find((p) => p.id === "S1");

  test("what is typed sets the pairs and their order, whatever the names are", () => {
    const set = setPositions(loom, "S1", "2: 3-2; 1: 3-1; 0: nothing");
    expect(s1(set)).toMatchObject({
      positions: ["2", "1", "0"],
      joins: { "2": [["3", "2"]], "1": [["3", "1"]], "0": [] },
    });
    const read = parse(write(set));
    expect(read.problems).toEqual([]);
    const { joins, positions } = s1(set) as unknown as {
      joins: Record<string, [string, string][]>;
      positions: string[];
    };
    expect(positionsLine(joins, positions)).toBe("2: 3-2; 1: 3-1; 0: nothing");
  });

  test("an empty line gives both back to the catalogue", () => {
    expect(s1(setPositions(setPositions(loom, "S1", "a: 1-2; b: nothing"), "S1", ""))).toEqual(s1(loom));
  });
});

describe("an item as in the file", () => {
  const loom = example("fuel-feed");

  test.each([
    ["parts", "K1"],
    ["wires", "W9"],
    ["definitions", "marigold-controller"],
  ] as const)("%s %s is the text of the file, and reads back as it was", (section, id) => {
    const text = asInFile(loom, section, id);
    expect(write(loom)).toContain(text);
    const read = withItem(loom, section, id, text);
    expect(read.ok && write(read.loom)).toBe(write(loom));
  });

  test.each([
    ["{", /not as in the file/],
    ["7", /"id" must stay "K1"/],
    ['{"id": "K9", "is": "relay"}', /"id" must stay "K1"/],
    ['{"id": "K1", "is": "relais"}', /must be one of alternator/],
    ['{"id": "K1", "is": "relay", "coil": 90}', /"coil" of K1 is 90; it must be a value with its unit/],
    ['{"id": "K1", "is": "relay", "kind": "break"}', /W36/],
  ])("%s is refused in words", (text, says) => {
    const read = withItem(loom, "parts", "K1", text);
    expect(read.ok ? "" : read.says).toMatch(says);
  });
});
