import { readFileSync } from "node:fs";
import { type Loom, parse, resolve, write } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { removalOf } from "../session/removing.ts";
import { step } from "./fields/grid-step.ts";
import { matching, terminalChoices } from "./fields/terminals.ts";
import { entriesOf, entriesWith } from "./outline/entries.ts";
import { stepName } from "./particulars/words.ts";

const read = parse(readFileSync(new URL("../../../../examples/fuel-feed.loom.json", import.meta.url), "utf8"));
if (!read.ok) throw new Error("the example is no loom");
const loom: Loom = read.loom;
const resolved = resolve(loom);

describe("terminals to wire to", () => {
  const choices = terminalChoices(loom, resolved);
  const found = (typed: string) => matching(choices, typed).map((c) => c.text);
  test("by name, by what they are, joints by their name alone", () => {
    expect(found("k1.8")).toEqual(["K1.86", "K1.85", "K1.87"]);
    expect(found("main relay coil")).toEqual(["K1.86", "K1.85"]);
    expect(found("feed rail")).toEqual(["XS1"]);
    expect(found("nothing of the kind")).toEqual([]);
  });
  test("what begins so comes first", () => expect(found("s4")[0]).toBe("S4.1"));
});

describe("outline", () => {
  const entries = entriesOf(loom, resolved);
  const entry = (name: string) => entries.find((e) => e.name === name);
  test("a part says what is wired where", () => {
    expect(entry("K3")).toEqual({
      picked: { kind: "part", id: "K3" },
      name: "K3",
      says: "Fuel feed · Relay",
      joined: "86 to XS3 by W9; 85 to XE2 by W18; 30 to F2.b by W12; 87 to K2.30 by W13, K2.86 by W14",
    });
    expect(entry("XS2")?.joined).toBe("S2.2 by W30, E1.a by W31, E2.a by W32");
    expect(entry("M2")?.joined).toBe("+ to K4.87 by W21; - open");
  });
  test("a wire says its ends", () => {
    expect(entry("W9")).toMatchObject({ says: "0.75 mm2 RD/BU", joined: "XS3 to K3.86" });
  });
  test("every part and every wire is there; typing narrows", () => {
    expect(entries).toHaveLength(loom.parts.length + loom.wires.length);
    expect(entriesWith(entries, "wire K3.86").map((e) => e.name)).toEqual(["W9"]);
    expect(entriesWith(entries, "lift pump m1").map((e) => e.name)).toEqual(["M1", "K2"]);
  });
});

test("what goes with a part is told, and the step is named", () => {
  const { says, tells, make } = removalOf(loom, { kind: "part", id: "M1" });
  expect(says).toBe("M1 deleted with W16 and W17");
  expect(tells).toBe("M1 is deleted, and with it W16 to K2.87, W17 to XE1 and the wish pump.");
  expect(parse(write(make(loom))).problems).toEqual([]);
  expect(removalOf(loom, { kind: "wire", id: "W1" }).tells).toBe("W1, from G1.+ to F1.a, is deleted.");
});

test("steps have the names that Undo shows", () => {
  expect(stepName("K3", "releaseTime", "7 ms")).toBe("K3: release time 7 ms");
  expect(stepName("K3", "coil", " ")).toBe("K3: coil as in the catalogue");
});

describe("arrows walk a flow of cells", () => {
  const box = (left: number, top: number) => ({
    getBoundingClientRect: () => ({ left, top, width: 70, height: 80 }) as DOMRect,
  });
  // Two lines, three and two cells; the second is shifted.
  const cells = [box(0, 0), box(80, 0), box(160, 0), box(40, 90), box(130, 90)];
  test.each([
    [0, "ArrowRight", 1],
    [2, "ArrowRight", 3],
    [0, "ArrowLeft", 0],
    [0, "ArrowDown", 3],
    [2, "ArrowDown", 4],
    [4, "ArrowUp", 2],
    [0, "ArrowUp", 0],
    [3, "ArrowDown", 3],
    [1, "Home", 0],
    [1, "End", 4],
    [1, "x", undefined],
  ])("from %i by %s to %s", (at, key, to) => expect(step(cells, at, key)).toBe(to));
});
