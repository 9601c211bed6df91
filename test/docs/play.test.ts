import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { loomproof } from "../cli/run.ts";

const page = readFileSync(new URL("../../docs/play.md", import.meta.url), "utf8");
const [, loom = ""] = /```json\n([\s\S]*?)```/.exec(page) ?? [];
const [, moves = ""] = /play caught\.loom\.json --moves "([^"]+)"/.exec(page) ?? [];
const [, told = ""] = /```\n( *0\.0 ms[\s\S]*?)```/.exec(page) ?? [];

test("the guide to play prints what play prints", () => {
  expect(moves).not.toBe("");
  const { code, out } = loomproof(["play", "-", "--moves", moves], loom);
  expect(code).toBe(0);
  expect(out).toContain(told);
});

test("fitted the other way round, nothing is caught", () => {
  const swapped = loom
    .replace('{"resistor": "330 ohm"}', "K1's")
    .replace('{"diode": "85>86"}', '{"resistor": "330 ohm"}')
    .replace("K1's", '{"diode": "85>86"}');
  expect(loomproof(["play", "-", "--moves", moves], swapped).out).toContain("no relay is in; on: nothing");
});
