import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { reportSchema } from "@loomproof/cli";
import { familyIds } from "@loomproof/netlist";
import { afterAll, describe, expect, test } from "vitest";
import { complaintsUnread, loomproof } from "./run.ts";

const folder = mkdtempSync(join(tmpdir(), "loomproof-"));
afterAll(() => rmSync(folder, { recursive: true }));

const feed = "examples/fuel-feed.loom.json";
const cured = "examples/fuel-feed-cured.loom.json";
/** A small one with a fault, and the same repaired. */
const faulty = "test/cases/looms/C01F.loom.json";
const repaired = "test/cases/looms/C01R.loom.json";

describe("prove", () => {
  test("prints the hold with its volts, its moves and what ends it", () => {
    const { code, out } = loomproof(["prove", feed]);
    expect(code).toBe(1);
    expect(out).toContain("Fuel feed K3 holds itself in");
    expect(out).toContain("Comes with it: ");
    expect(out.replace(/\s+/g, " ")).toContain("Not as wanted: Lift pump M1 is on");
    expect(out).toMatch(/Coil of K3: \d\.\d\d V; lets go for certain at 1\.20 V/);
    expect(out).toMatch(/S1 to run: .*K3 pulls in/);
    expect(out).toMatch(/S1 to off: .*K1 lets go/);
    expect(out).toMatch(/Ends it, but: W\d+/);
    expect(out).toContain("A model of what was drawn");
  });

  test("a clean loom exits 0 and says so", () => {
    const { code, out } = loomproof(["prove", cured]);
    expect(code).toBe(0);
    expect(out).toContain("Nothing found.");
  });

  test("an intent that hangs on what nobody told is named with what is missing", () => {
    const { out } = loomproof(["prove", "examples/marigold-cured.loom.json"]);
    expect(out).toMatch(/Could not check:\n +intent fan: what A1\.14 waits for/);
  });

  test.each([
    ["danger", 1],
    ["never", 0],
  ])("--fail-at %s exits %d", (at, expected) => {
    expect(loomproof(["prove", faulty, "--fail-at", at]).code).toBe(expected);
  });

  test("several files, a pattern and standard input", () => {
    const { code, out } = loomproof(
      ["prove", "--json", "test/cases/looms/C01*.loom.json", "-"],
      readFileSync(repaired),
    );
    expect(code).toBe(1);
    const reports = JSON.parse(out) as { readonly file: string }[];
    expect(reports.map((r) => r.file)).toEqual([faulty, repaired, "-"]);
  });

  test("--json keeps to its published schema, for good files and bad", () => {
    for (const args of [[feed], [cured], ["no-such-file.json"], [faulty, "no-such-file.json"]])
      expect(reportSchema.safeParse(JSON.parse(loomproof(["prove", "--json", ...args]).out)).error).toBeUndefined();
  });

  test("the same file gives the same bytes", () => {
    const once = loomproof(["prove", "--json", faulty]).out;
    expect(loomproof(["prove", "--json", faulty]).out).toBe(once);
  });

  test("a file that is no loom: place, found, expected on standard error, exit 2", () => {
    const file = join(folder, "bad.loom.json");
    writeFileSync(file, readFileSync(feed, "utf8").replace('"rated": "7 A"', '"rated": "7 Z"'));
    const { code, out, err } = loomproof(["prove", file]);
    expect(code).toBe(2);
    expect(err).toMatch(/bad\.loom\.json:\d+:\d+/);
    expect(err).toContain("7 Z");
    expect(err).toContain("expected");
    expect(out).not.toContain("danger");
  });

  test("a wrong call exits 2 and says what was wrong", () => {
    expect(loomproof(["prove"]).code).toBe(2);
    expect(loomproof(["prov", feed]).err).toContain("prove");
    expect(loomproof(["prove", feed, "--fail-at", "sometimes"]).code).toBe(2);
  });
});

test("draw lights the path of a finding", () => {
  const file = join(folder, "hold.svg");
  expect(loomproof(["draw", feed, "--finding", "self-hold:K3", "--out", file]).code).toBe(0);
  const svg = readFileSync(file, "utf8");
  expect(svg).toMatch(/^<svg /);
  expect(svg).toContain("W9");
  expect(loomproof(["draw", faulty, "--finding", "self-hold:K9"]).err).toContain("self-hold:PR");
});

test("a reader that goes away is no trouble", async () => {
  expect(await complaintsUnread(["prove", repaired])).toBe("");
  expect(await complaintsUnread(["schema", "loom"])).toBe("");
});

test("parts tells what a part can be, from the families themselves", () => {
  const all = loomproof(["parts"]).out;
  for (const id of familyIds) {
    expect(all).toContain(`${id} `);
    expect(loomproof(["parts", id]).out).toContain(`"is": "${id}"`);
  }
  const { out } = loomproof(["parts", "relay"]);
  expect(out).toMatch(/changeover +86 {2}85 {2}30 {2}87 {2}87a/);
  expect(out).toContain("not given: 5 mohm (from memory)");
  expect(loomproof(["parts", "relai"])).toMatchObject({ code: 2, out: "" });
});

test("cautions and schemas are printed", () => {
  expect(loomproof(["cautions"]).out).toMatch(/Disconnect the battery/);
  for (const which of ["loom", "report", "behaviour", "behaviour-change"])
    expect(JSON.parse(loomproof(["schema", which]).out)).toHaveProperty("$schema");
});
