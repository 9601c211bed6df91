import { readFileSync } from "node:fs";
import { type Behaviour, behaviour } from "@loomproof/analyzer";
import { type Loom, parse, resolve, wantOnlyWhen, write } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { groupsOf } from "./columns.ts";
import { cellSentence, cellWord, doesWords, headOf, wishesOf } from "./words.ts";

function open(name: string): { readonly loom: Loom; readonly table: Behaviour } {
  const read = parse(readFileSync(new URL(`../../../../../examples/${name}.loom.json`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error("the example is no loom");
  return { loom: read.loom, table: behaviour(read.loom, Number.POSITIVE_INFINITY) };
}

const { loom, table } = open("fuel-feed");
const resolved = resolve(loom);
const row = (id: string) => {
  const found = table.rows.find((r) => r.id === id);
  if (found === undefined) throw new Error(`no row ${id}`);
  return found;
};

describe("columns", () => {
  test("stand under the positions of the key, each with what tells it from its neighbours", () => {
    expect(groupsOf(resolved, table, 16).map(({ key, columns }) => [key, columns.map((c) => c.says)])).toEqual([
      [{ says: "Key off", at: 0, of: 3 }, ["as usual", "after run", "manifold cold, after run", "Lights closed"]],
      [{ says: "Key run", at: 1, of: 3 }, ["as usual", "manifold cold", "Lights closed", "A1.4 (pump relay) on"]],
      [{ says: "Key start", at: 2, of: 3 }, ["as usual", "Seat closed"]],
    ]);
  });

  test("so many at most, in the order of the table", () => {
    const columns = groupsOf(resolved, table, 5).flatMap((g) => g.columns.map((c) => c.at));
    expect(columns).toEqual([0, 1, 2, 3, 4]);
  });

  test("two after the same position say which relays are still in", () => {
    const held = table.situations[1];
    if (held === undefined) throw new Error("no situation");
    const other = { ...held, heldIn: ["K3"], title: "Key off, after run: K3 still in" };
    const groups = groupsOf(resolved, { ...table, situations: [held, other] }, 16);
    expect(groups[0]?.columns.map((c) => c.says)).toEqual(["after run: K2 and K3 still in", "after run: K3 still in"]);
  });

  test("without a key there is one group without a head, and whole titles", () => {
    const keyless = { ...resolved, parts: resolved.parts.filter((p) => p.family !== "key-switch") };
    const [group, ...more] = groupsOf(keyless, table, 2);
    expect([group?.key, more]).toEqual([undefined, []]);
    expect(group?.columns[0]?.says).toBe("Key off");
  });

  test.each(["fuel-feed", "marigold-first", "marigold-cured"])(
    "no two of %s in one group have the same words",
    (name) => {
      const { loom: own, table: all } = open(name);
      for (const { columns } of groupsOf(resolve(own), all, Number.POSITIVE_INFINITY)) {
        const words = columns.map((c) => c.says);
        expect(new Set(words).size).toBe(words.length);
      }
    },
  );
});

describe("what is wanted", () => {
  const wishes = wishesOf(loom, table);
  test("stands beside its row, without the row's name, with its verdict", () => {
    expect(wishes.get("M1")).toEqual([
      { id: "pump", says: "only with Key run or start", verdict: "not met", isPossible: false, missing: [] },
    ]);
    expect(wishes.get("G1")?.[0]?.says).toBe("under 30\u00a0mA at rest with Key off");
    expect(wishes.get("E3")?.[0]?.isPossible).toBe(true);
    expect(wishes.get("M2")?.[0]?.verdict).toBe("met");
    expect(wishes.get(undefined)).toBeUndefined();
  });

  test("what is half said belongs to no row, and says what is missing", () => {
    const half = { ...loom, intents: [{ id: "half", below: "1 A" }] };
    const [wish] = wishesOf(half, behaviour(half)).get(undefined) ?? [];
    expect(wish).toMatchObject({ id: "half", verdict: "could not check" });
    expect(wish?.missing.length).toBeGreaterThan(0);
  });
});

describe("a wish that is stated", () => {
  test("is an intent of the file, called after its load, and is held against the loom", () => {
    const once = wantOnlyWhen(loom, "E1", "S1", ["run"]);
    const twice = wantOnlyWhen(once, "E1", "S1", ["run", "start"]);
    expect(twice.intents.slice(-2)).toEqual([
      { id: "E1", load: "E1", onOnlyWhen: [{ S1: "run" }] },
      { id: "E1 2", load: "E1", onOnlyWhen: [{ S1: ["run", "start"] }] },
    ]);
    const again = parse(write(twice));
    expect(again.ok && again.loom.intents).toEqual(expect.arrayContaining([...twice.intents]));
    // The lights are on with the key off as well.
    expect(wishesOf(once, behaviour(once)).get("E1")).toMatchObject([
      { says: "only with Key run", verdict: "not met" },
    ]);
  });
});

describe("words", () => {
  test("of a row and its cells", () => {
    expect(headOf(row("M1"))).toEqual({ id: "M1", says: "Lift pump" });
    expect(headOf(row("G1"))).toEqual({ id: "G1", says: "From the battery" });
    expect(doesWords(row("K3"), "held")).toBe("is in only because of what came before");
    expect(doesWords(row("A1"), "off")).toBe("has no supply");
    expect(doesWords(row("G1"), 0)).toBe("gives nothing");
    expect([cellWord(0.01144), cellWord(4.567), cellWord(0.9999), cellWord("held")]).toEqual([
      "11.4\u00a0mA",
      "4.57\u00a0A",
      "1\u00a0A",
      "held in",
    ]);
  });

  test("the picked cell says situation, row and wish; one that is as wanted says no wish", () => {
    const wishes = wishesOf(loom, table);
    expect(cellSentence(table, wishes, { row: "M1", at: 1 })).toMatchObject({
      head: "Key off, after run: K2 and K3 still in. Two things are not as you want them.",
      says: "Lift pump M1 is on. You want: only with Key run or start.",
    });
    expect(cellSentence(table, wishes, { row: "M1", at: 0 })).toEqual({
      head: "Key off.",
      says: "Lift pump M1 is off.",
      against: [],
    });
    expect(cellSentence(table, wishes, { row: "M1", at: 99 })).toBeUndefined();
  });
});
