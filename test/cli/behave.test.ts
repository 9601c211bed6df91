import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { behaviourChangeSchema, behaviourSchema } from "@loomproof/cli";
import { afterAll, describe, expect, test } from "vitest";
import { exampleNames } from "../examples/examples.ts";
import { loomproof } from "./run.ts";

const folder = mkdtempSync(join(tmpdir(), "loomproof-"));
afterAll(() => rmSync(folder, { recursive: true }));

const feed = "examples/fuel-feed.loom.json";
const cured = "examples/fuel-feed-cured.loom.json";
const fileOf = (name: string) => `examples/${name}.loom.json`;

const known = new Map<string, string>();

/** What is printed of an example; each is worked out once. */
function printed(...args: readonly string[]): string {
  const key = args.join(" ");
  const out = known.get(key) ?? loomproof(["behave", ...args]).out;
  known.set(key, out);
  return out;
}

/** A pump by a switch, and what its owner wants. Invented. */
const SMALL = `{
 "format": "loomproof/1", "system": {"volts": 12},
 "parts": [
  {"id": "G1", "is": "battery"}, {"id": "F1", "is": "protector", "rated": "10 A"}, {"id": "S1", "is": "switch"},
  {"id": "M1", "is": "motor"}, {"id": "E1", "is": "lamp"}
 ],
 "wires": [
  {"id": "W1", "from": "G1.+", "to": "F1.a"}, {"id": "W2", "from": "F1.b", "to": "S1.1"},
  {"id": "W3", "from": "S1.2", "to": "M1.+"}, {"id": "W4", "from": "M1.-", "to": "G1.-"},
  {"id": "W5", "from": "S1.2", "to": "E1.a"}, {"id": "W6", "from": "E1.b", "to": "G1.-"}
 ],
 "intents": [
  {"id": "pump", "load": "M1", "onOnlyWhen": [{"S1": "closed"}]},
  {"id": "lit", "load": "E1", "onWhen": [{"S1": "closed"}]},
  {"id": "rest", "battery": "G1", "below": "30 mA", "when": [{"S1": "open"}]}
 ]
}`;

/** A loom as a file with some text of it replaced: the first demo, or another. */
function changed(name: string, from: string, to: string, text = readFileSync(feed, "utf8")): string {
  expect(text).toContain(from);
  const file = join(folder, `${name}.loom.json`);
  writeFileSync(file, text.replace(from, to));
  return file;
}

describe("behave FILE", () => {
  test("prints situations, cells and what is not as wanted, in words as well as signs", () => {
    const { code, out } = loomproof(["behave", feed]);
    expect(code).toBe(0);
    expect(out).toMatch(/^ +2 {2}Key off, after run: K2 and K3 still in$/m);
    expect(out).toMatch(/Lift pump M1 +│ +│ on ! +│/);
    expect(out).toMatch(/Fuel feed K3 +│ +│ held +│/);
    expect(out).toMatch(/Controller A1 .*awake/);
    expect(out).toMatch(/From the battery G1 │ 0 mA │ \d\.\d\d A ! │/);
    expect(out).toContain("✗ not met          Lift pump M1: only with Key run or start (pump)");
    expect(out).toContain("✓ met              Starter M2: only with Key start, Seat closed");
    expect(out).toContain("A model of what was drawn");
  });

  test("a situation that is not met says where, and one that nobody can judge says what is missing", () => {
    expect(printed(fileOf("marigold-first"))).toMatch(/not met .*\(pump\)\n +In 2, 6\./);
    const out = printed(fileOf("marigold-cured"));
    expect(out).toMatch(
      /\? could not check {2}Radiator fan M3: only with ENG running \(fan\)\n +Not known: what A1\.14 /,
    );
    expect(out).not.toContain("✗");
  });

  test("16 situations at first, all with --all", () => {
    const first = printed(fileOf("marigold-first"));
    const more = Number(/(\d+) more situations/.exec(first)?.[1]);
    const all = printed(fileOf("marigold-first"), "--all");
    expect(all).not.toContain("more situations");
    expect(all).toMatch(new RegExp(`^ +${16 + more}  `, "m"));
    expect(all).not.toMatch(new RegExp(`^ +${17 + more}  `, "m"));
  });

  test.each(exampleNames)("--json of %s keeps to its schema, the same bytes twice, no two situations alike", (name) => {
    const out = printed("--json", "--all", fileOf(name));
    expect(loomproof(["behave", "--json", "--all", fileOf(name)]).out).toBe(out);
    const table = behaviourSchema.parse(JSON.parse(out));
    for (const row of table.rows) expect(row.cells).toHaveLength(table.situations.length);
    const titles = table.situations.map((s) => s.title);
    expect(new Set(titles).size).toBe(titles.length);
    const isKeyAlone = (title: string) => !title.includes(",");
    const columns = table.situations.map((_, k) =>
      table.rows.flatMap((r) => (r.kind === "battery" ? [] : [r.cells[k]])).join(),
    );
    columns.forEach((c, k) => {
      if (!isKeyAlone(titles[k] ?? "")) expect(columns.indexOf(c), titles[k]).toBe(k);
    });
  });

  test.each(exampleNames)("a situation of %s in which no output is asked for breaks only what is not met", (name) => {
    const table = behaviourSchema.parse(JSON.parse(printed("--json", "--all", fileOf(name))));
    const isAsked = (inputs: Readonly<Record<string, string>>) =>
      Object.entries(inputs).some(([id, at]) => id.includes(".") && at === "on");
    for (const { against, inputs, title } of table.situations)
      for (const { intent } of against)
        if (!isAsked(inputs)) expect(table.intents.find((i) => i.id === intent)?.verdict, title).toBe("not met");
  });
});

describe("behave OLD NEW", () => {
  test("prints what differs, and nothing else", () => {
    const { code, out } = loomproof(["behave", feed, cured]);
    expect(code).toBe(0);
    expect(out).toMatch(/Situations that are gone:\n {5}Key off, after run: K2 and K3 still in\n/);
    expect(out).toContain("Lift pump M1: only with Key run or start: not met -> met");
    expect(out).not.toContain("Key start");
  });

  test("a row that does something else, before -> after", () => {
    const hot = changed("hot", '"to": "S3.1", "size": "0.75 mm2"', '"to": "S3.2", "size": "0.75 mm2"');
    const { out } = loomproof(["behave", feed, hot]);
    expect(out).toMatch(/^Key run\n(.*\n)*? {5}Manifold heater E3: off -> on$/m);
  });

  test("a loom does what it does itself", () => {
    for (const name of ["fuel-feed", "marigold-cured"])
      expect(printed(fileOf(name), fileOf(name))).toContain("Both do the same.");
  });

  test.each([
    ["a hold that is gone", feed, cured],
    [
      "a lamp that is always on",
      changed("before", "", "", SMALL),
      changed("after", '"W5", "from": "S1.2"', '"W5", "from": "F1.b"', SMALL),
    ],
  ])("--json of %s keeps to its schema, the same bytes twice, and turned round it tells the contrary", (_, old, to) => {
    const { out } = loomproof(["behave", "--json", old, to]);
    expect(loomproof(["behave", "--json", old, to]).out).toBe(out);
    const there = behaviourChangeSchema.parse(JSON.parse(out));
    const back = behaviourChangeSchema.parse(JSON.parse(loomproof(["behave", "--json", to, old]).out));
    if (old === feed) expect(there.gone.length).toBeGreaterThan(0);
    else expect(there.situations.length).toBeGreaterThan(0);
    expect([back.added, back.gone]).toEqual([there.gone, there.added]);
    const cells = (change: typeof there, isBack: boolean) =>
      change.situations.flatMap(({ title, rows }) =>
        rows.map((r) => [title, r.row, isBack ? r.after : r.before, isBack ? r.before : r.after]),
      );
    expect(cells(back, true).map(String).sort()).toEqual(cells(there, false).map(String).sort());
  });
});

describe("bad files", () => {
  test("no loom, first or second: place and reason on standard error, exit 2, nothing printed", () => {
    for (const args of [["no-such-file.json"], [feed, "package.json"], ["package.json", feed]]) {
      const { code, out, err } = loomproof(["behave", ...args]);
      expect(code).toBe(2);
      expect(out).toBe("");
      expect(err).toMatch(/(no-such-file|package)\.json:\d+:\d+/);
    }
  });

  test.each([
    ["a part that is not there", '"load": "M1"', '"load": "M9"', /M9/],
    ["a switch that is not there", '"onOnlyWhen": [{"S1"', '"onOnlyWhen": [{"S9"', /S9/],
    ["a position that is not there", '"onWhen": [{"S1": "closed"', '"onWhen": [{"S1": "go"', /go/],
    ["no current", '"below": "30 mA"', '"below": "30 mV"', /30 mV/],
    ["an unknown key", '"below": "30 mA"', '"bellow": "30 mA"', /below/],
  ])("an intent with %s is told with its line, exit 2", (name, from, to, expects) => {
    const { code, err } = loomproof(["behave", changed(name.replaceAll(" ", "-"), from, to, SMALL)]);
    expect(code).toBe(2);
    expect(err).toMatch(/\.loom\.json:\d+:\d+/);
    expect(err).toMatch(expects);
  });

  test.each([
    ["F1 goes nowhere", '"load": "M1"', '"load": "F1"', "F1 is nothing that goes on"],
    ["a lamp is no battery", '"battery": "G1"', '"battery": "E1"', "E1 is no battery"],
    ["half said", ', "below": "30 mA", "when": [{"S1": "open"}]', "", "how much the battery may give"],
    ["nothing said", '"battery": "G1", "below": "30 mA", "when": [{"S1": "open"}]', '"note": "?"', "what it is about"],
  ])("an intent that says nothing to compare could not be checked: %s", (name, from, to, says) => {
    const { code, out } = loomproof(["behave", changed(name.replaceAll(" ", "-"), from, to, SMALL)]);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, " ")).toContain(`Not known: ${says}`);
  });
});
