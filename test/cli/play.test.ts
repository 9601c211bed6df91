import { readFileSync } from "node:fs";
import { timelineSchema } from "@loomproof/cli";
import { describe, expect, test } from "vitest";
import { loomproof } from "./run.ts";

const feed = "examples/fuel-feed.loom.json";
const HOLD = "key=run, 100ms A1.4=on, 200 ms key=off";

/** The moment of a line such as "210 ms  K1 lets go". */
const momentOf = (out: string, says: string): number =>
  Number(new RegExp(`^ *([\\d.]+) ms {2}${says}$`, "m").exec(out)?.[1] ?? Number.NaN);

describe("play", () => {
  test("tells what happens in order, and where it ends", () => {
    const { code, out } = loomproof(["play", feed, "--moves", HOLD]);
    expect(code).toBe(0);
    const moments = ["S1 to run", "K1 pulls in", "K3 pulls in", "A1.4 to on", "K2 pulls in", "S1 to off", "K1 lets go"];
    const ms = moments.map((m) => momentOf(out, m));
    expect(ms.every((m) => m >= 0)).toBe(true);
    expect(ms).toEqual(ms.toSorted((a, b) => a - b));
    expect(out).toContain("Then nothing moves any more; in: K2, K3; on: K2, K3, M1.");
    expect(out).toContain("A model of what was drawn");
  });

  test("charts the current and the contact of what moved, and of nothing else", () => {
    const { out } = loomproof(["play", feed, "--moves", HOLD]);
    expect(out).toMatch(/^K1 .*█.* up to \d+ mA$/m);
    expect(out).not.toMatch(/^K4 /m);
  });

  test("relays at the slow end of their times take longer than at the fast end", () => {
    const at = (times: string) =>
      momentOf(loomproof(["play", feed, "--moves", "key=run, 200ms key=off", "--times", times]).out, "K1 lets go");
    // The file gives 7 to 14 ms for K1 with its own diode.
    expect(at("fastest")).toBeLessThan(209);
    expect(at("slowest")).toBeGreaterThan(212);
  });

  test.each([
    ["key=go", "a position of S1 (off, run, start)"],
    ["S9=on", "S1 (off, run, start)"],
  ])("moves %s are refused with what was expected", (moves, expected) => {
    const { code, out, err } = loomproof(["play", feed, "--moves", moves]);
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).toContain(expected);
  });

  test("what never comes to rest is told so, and not line by line for ever", () => {
    const buzzer = {
      format: "loomproof/1",
      system: { volts: 12, reference: "G1.-" },
      parts: [
        { id: "G1", is: "battery" },
        { id: "F1", is: "protector", rated: "5 A" },
        { id: "S1", is: "switch" },
        { id: "K1", is: "relay", kind: "changeover" },
      ],
      wires: [
        { id: "W1", from: "G1.+", to: "F1.a" },
        { id: "W2", from: "F1.b", to: "S1.1" },
        { id: "W3", from: "S1.2", to: "K1.30" },
        { id: "W4", from: "K1.87a", to: "K1.86" },
        { id: "W5", from: "K1.85", to: "G1.-" },
      ],
    };
    const { code, out } = loomproof(["play", "-", "--moves", "S1=closed"], JSON.stringify(buzzer));
    expect(code).toBe(0);
    expect(out).toContain("rest contact of K1 opens");
    expect(out).toMatch(/and so on, \d+ lines more\n\nIt never comes to rest/);
    expect(out.split("\n").length).toBeLessThan(60);
  });

  test("moves must be given; a file that is no loom and two forms at once are refused", () => {
    expect(loomproof(["play", feed])).toMatchObject({ code: 2, out: "" });
    expect(loomproof(["play", feed, "--moves", "S1=run", "--json", "--csv"]).code).toBe(2);
    const { code, err } = loomproof(["play", "-", "--moves", "S1=run"], "{}");
    expect(code).toBe(2);
    expect(err).toContain("expected");
  });

  test("--json keeps to its published schema, and the same file gives the same bytes", () => {
    const args = ["play", feed, "--moves", HOLD, "--json"];
    const { out } = loomproof(args);
    const parsed = timelineSchema.safeParse(JSON.parse(out));
    expect(parsed.error).toBeUndefined();
    expect(loomproof(args).out).toBe(out);
    const { traces } = parsed.data ?? { traces: undefined };
    const columns = [
      ...(traces?.coils.map((c) => c.amps) ?? []),
      ...(traces?.contacts.map((c) => c.closed) ?? []),
      ...Object.values(traces?.volts ?? {}),
    ];
    expect(columns.length).toBeGreaterThan(50);
    for (const column of columns) expect(column.length).toBe(traces?.ms.length);
  });

  test("so does the timeline of the demo loom, whose modules have states of their own", () => {
    const { out } = loomproof(["play", "examples/marigold-first.loom.json", "--moves", "key=run", "--json"]);
    expect(timelineSchema.safeParse(JSON.parse(out)).error).toBeUndefined();
  });

  test("--csv: one head, rows of the same length, ascending times", () => {
    const { code, out } = loomproof(["play", "-", "--moves", "S1=run, 50ms S1=off", "--csv"], readFileSync(feed));
    expect(code).toBe(0);
    const rows = out
      .trimEnd()
      .split("\n")
      .map((r) => r.split(","));
    expect(rows[0]?.slice(0, 2)).toEqual(["ms", "K1 winding 1 A"]);
    expect(new Set(rows.map((r) => r.length)).size).toBe(1);
    const ms = rows.slice(1).map((r) => Number(r[0]));
    expect(ms).toEqual(ms.toSorted((a, b) => a - b));
    expect(ms.length).toBeGreaterThan(50);
  });

  test("its schema is printed", () => {
    expect(JSON.parse(loomproof(["schema", "timeline"]).out)).toHaveProperty("$schema");
  });
});
