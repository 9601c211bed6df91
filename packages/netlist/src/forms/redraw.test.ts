import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { connect } from "../edit/connect.ts";
import { newPart } from "../edit/new-part.ts";
import { setValue } from "../edit/parts.ts";
import { renamePart, renameWire } from "../edit/rename.ts";
import { moveWireEnd, setWireValue } from "../edit/wires.ts";
import { parse } from "../loom/parse.ts";
import type { Loom, PartText } from "../loom/schema.ts";
import { write } from "../loom/write.ts";
import { families } from "../parts/families.ts";
import { shelf } from "../shelf/shelf.ts";
import { asTyped } from "../units/typed.ts";
import { fieldsOf } from "./fields.ts";
import { asInFile, withItem } from "./item.ts";
import { formFor, readLine } from "./lines.ts";
import { positionsLine, setPositions } from "./positions.ts";

// An example drawn again from an empty sheet, with nothing but what the shelf and the forms can do.

const given = (text: string): Loom => {
  const read = parse(text);
  if (!read.ok) throw new Error(read.problems[0]?.says);
  return read.loom;
};
const example = (name: string): Loom =>
  given(readFileSync(new URL(`../../../../examples/${name}.loom.json`, import.meta.url), "utf8"));

/** As the page does: an edit that leaves no loom is refused. */
const kept = (loom: Loom): Loom => given(write(loom));

const typed = (text: unknown, unit: Parameters<typeof asTyped>[1]): string => {
  const read = asTyped(String(text).replace(/\s/g, ""), unit);
  if (read.kind === "bare") throw new Error(`${text} lost its unit`);
  return read.text;
};

/** The fields of a part, typed one by one. */
function fill(loom: Loom, wanted: PartText): Loom {
  let now = loom;
  for (const { key, form } of fieldsOf(wanted.is)) {
    const value = wanted[key];
    if (value === undefined) continue;
    const set = (next: unknown) => setValue(now, wanted.id, key, next);
    if (form.kind === "quantity") now = set(typed(value, form.unit));
    else if (form.kind === "span")
      now = set(
        Array.isArray(value) ? value.map((v) => (v === null ? v : typed(v, form.unit))) : typed(value, form.unit),
      );
    else if (form.kind === "line") {
      const line = formFor(value, form.text);
      const read = readLine(line.write(value), line);
      now = set(read.ok ? read.value : undefined);
    } else if (form.kind === "positions") {
      const { joins, positions } = wanted as PartText & {
        joins: Record<string, [string, string][]>;
        positions?: string[];
      };
      now = setPositions(now, wanted.id, positionsLine(joins, positions));
    } else if (form.kind !== "with positions") now = set(value);
  }
  return kept(now);
}

function place(loom: Loom, wanted: PartText): Loom {
  const kind = wanted.kind ?? families[wanted.is].kinds[0];
  const items = shelf.flatMap((g) => g.items);
  const item = items.find((i) => i.family === wanted.is && (i.family === "module" || i.kind === kind));
  if (item === undefined) throw new Error(`${wanted.is} ${kind} is not on the shelf`);
  const { loom: placed, id } = newPart(loom, item.family, item.kind, item.definition);
  return id === wanted.id ? placed : renamePart(placed, id, wanted.id);
}

test.each(["fuel-feed", "marigold-first"])("%s from an empty sheet is the same file", (name) => {
  const wanted = example(name);
  let now = given('{"format": "loomproof/1", "system": {"volts": 12}, "parts": [], "wires": []}');
  for (const part of wanted.parts) now = kept(place(now, part));
  // Pin tables: the definition as in the file. It keeps its own name here; a file's may be another.
  for (const part of wanted.parts.filter((p) => p.of !== undefined)) {
    const own = now.parts.find((p) => p.id === part.id)?.of ?? "";
    const text = asInFile(wanted, "definitions", part.of ?? "").replace(`"id": "${part.of}"`, `"id": "${own}"`);
    const read = withItem(now, "definitions", own, text);
    if (!read.ok) throw new Error(read.says);
    now = read.loom;
  }
  for (const part of wanted.parts) {
    for (const key of ["label", "harm", "case", "note"])
      if (part[key] !== undefined) now = kept(setValue(now, part.id, key, part[key]));
    now = fill(now, part);
  }
  for (const { id, from, to, ...values } of wanted.wires) {
    const made = connect(now, from, to);
    now = made.wire === id ? made.loom : renameWire(made.loom, made.wire, id);
    now = moveWireEnd(now, id, "to", to);
    for (const key of ["size", "colour"] as const) now = setWireValue(now, id, key, undefined);
    for (const [key, value] of Object.entries(values))
      now = setWireValue(now, id, key as keyof typeof values, value ?? undefined);
    now = kept(now);
  }
  // What a part is by default is written by the shelf and left out by hand; names of pin tables may differ.
  const plain = (loom: Loom) =>
    loom.parts
      .map(({ of, kind, positions, ...p }) => ({
        ...p,
        kind: kind ?? families[p.is as PartText["is"]].kinds[0],
        positions: positions ?? Object.keys((p.joins as object | undefined) ?? {}),
      }))
      .sort((a, b) => (a.id < b.id ? -1 : 1));
  expect(plain(now)).toEqual(plain(wanted));
  expect([...now.wires].sort((a, b) => (a.id < b.id ? -1 : 1))).toEqual(
    [...wanted.wires].sort((a, b) => (a.id < b.id ? -1 : 1)),
  );
  const tables = (loom: Loom) =>
    loom.definitions.map(({ id: _, ...d }) => d).sort((a, b) => ((a.title ?? "") < (b.title ?? "") ? -1 : 1));
  expect(tables(now)).toEqual(tables(wanted));
});
