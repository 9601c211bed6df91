import { readFileSync } from "node:fs";
import { parse, resolve } from "@loomproof/netlist";
import { expect, test } from "vitest";
import { stretchesOf } from "./path.ts";

const read = parse(readFileSync(new URL("../../../../examples/fuel-feed.loom.json", import.meta.url), "utf8"));
if (!read.ok) throw new Error("the example is no loom");
const loom = resolve(read.loom);

test("a path is told part by part, with the wires between and the volts where it leaves each part", () => {
  const path = ["G1.+", "F1.a", "F1.b", "XS1.1", "F2.a"];
  const volts = { "G1.+": 12.6, "F1.a": 12.5, "F1.b": 12.4, "XS1.1": 12.3, "F2.a": 12.2 };
  const told = stretchesOf(loom, path, volts, ["G1.+", "F1.a", "F2.a"]);
  expect(told.map((s) => [s.kind, s.id, s.terminals.join(" "), s.volts, s.isStep])).toEqual([
    ["part", "G1", "+", 12.6, true],
    ["wire", "W1", "", undefined, false],
    ["part", "F1", "a b", 12.4, true],
    ["wire", "W2", "", undefined, false],
    ["part", "XS1", "1", 12.3, false],
    ["wire", "W11", "", undefined, false],
    ["part", "F2", "a", 12.2, true],
  ]);
});

test("a part that is passed twice is told twice, each time under a key of its own", () => {
  const told = stretchesOf(loom, ["K3.30", "K3.87", "K2.86", "K2.85", "A1.4", "A1.1", "XS3.1", "K3.86"], {}, []);
  expect(told.filter((s) => s.id === "K3").map((s) => s.terminals)).toEqual([["30", "87"], ["86"]]);
  expect(new Set(told.map((s) => s.key)).size).toBe(told.length);
});
