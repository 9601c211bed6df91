import { describe, expect, test } from "vitest";
import { parse } from "../loom/parse.ts";
import { write } from "../loom/write.ts";
import { families, familyIds } from "../parts/families.ts";
import { shippedDefinitions } from "../parts/shipped/shipped.ts";
import { findOnShelf, nearestOnShelf, onlyPart } from "./find.ts";
import { shelf } from "./shelf.ts";

const items = shelf.flatMap((g) => g.items);

test("every kind of every family is on the shelf once, and every shipped definition", () => {
  const kinds = familyIds.filter((f) => f !== "module").flatMap((f) => families[f].kinds.map((kind) => `${f}/${kind}`));
  const all = [...kinds, ...shippedDefinitions.map((d) => `module/${d.id}`)];
  expect(items.map((i) => i.id).sort()).toEqual(all.sort());
});

test.each(items.map((i) => [i.title, i] as const))("%s makes a loom that reads back", (_, item) => {
  const read = parse(write(onlyPart(item)));
  expect(read.problems).toEqual([]);
});

describe("found by what people call it", () => {
  const first = (text: string) => findOnShelf(text).flatMap((g) => g.items.map((i) => i.title));
  test.each([
    ["pump", "Pump"],
    ["thing that clicks", "Relay"],
    ["87a", "Changeover relay"],
    ["fuse", "Fuse"],
    ["earth", "Ground on the body"],
    ["control unit", "Controller"],
    ["ECU", "Controller"],
    ["light", "Lamp"],
    ["ignition switch", "Key"],
    ["bus bar", "Splice"],
    ["plug", "Connector"],
    ["D+", "Alternator"],
    ["crank", "Starter"],
    ["gauge", undefined],
  ])("%s: %s", (text, title) => {
    if (title === undefined) expect(first(text)).toEqual([]);
    else expect(first(text)).toContain(title);
  });

  test.each([
    ["switch", "Switch"],
    ["relay", "Relay"],
    ["seat", "Seat switch"],
    ["indicator led", "LED indicator"],
    ["thing that clicks", "Relay"],
    ["flux", undefined],
  ])("of what %s finds, the nearest is %s", (text, title) => {
    expect(nearestOnShelf(findOnShelf(text), text)?.title).toBe(title);
  });

  test("87a finds only what has such a terminal", () => {
    expect(first("87a")).toEqual(["Changeover relay", "Break relay"]);
  });

  test("nothing typed is the whole shelf", () => {
    expect(findOnShelf("  ")).toBe(shelf);
  });
});
