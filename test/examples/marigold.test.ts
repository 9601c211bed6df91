import { analyse } from "@loomproof/analyzer";
import { type Loom, resolve } from "@loomproof/netlist";
import { expect, test } from "vitest";
import { exampleLoom } from "./examples.ts";
import { withUnknownClamps } from "./unknown-clamps.ts";

// The whole tractor, invented. What it must say finding by finding stands in its expected file; here what it is.

const OUTPUTS = ["low-side", "high-side", "half-bridge"];

/** Outputs that are wired and whose logic the loom does not tell. */
function unknownOutputs(loom: Loom): readonly string[] {
  const wired = new Set(loom.wires.flatMap((w) => [w.from, w.to]));
  return resolve(loom).parts.flatMap((part) => {
    if (part.family !== "module") return [];
    const { pins: all, on } = part.definition;
    const pins = all.filter((p) => OUTPUTS.includes(p.kind) && !on.has(p.pin));
    return pins.map((p) => `${part.id}.${p.pin}`).filter((t) => wired.has(t));
  });
}

test.each(["marigold-first", "marigold-cured"])("%s is a whole vehicle", (name) => {
  const loom = exampleLoom(name);
  expect(loom.parts.length).toBeGreaterThanOrEqual(45);
  expect(loom.wires.length).toBeGreaterThanOrEqual(90);
  expect(unknownOutputs(loom).length).toBeGreaterThanOrEqual(8);
});

test("one hold has a harmless cut and stands whatever the release times, one has none", () => {
  const { findings } = analyse(exampleLoom("marigold-first"));
  const [lift, main] = ["self-hold:K3", "self-hold:K1"].map((id) => findings.find((f) => f.id === id));
  expect(lift?.hold?.kind).toBe("standing");
  expect(lift?.cuts?.harmless.length).toBeGreaterThan(0);
  expect(main?.cuts?.harmless).toEqual([]);
  expect(main?.cuts?.breaking.length).toBeGreaterThan(0);
});

test("cured, and with every clamp unknown, at most five findings are open", { timeout: 600_000 }, () => {
  const { findings } = analyse(withUnknownClamps(exampleLoom("marigold-cured")));
  const open = findings.filter((f) => f.severity !== "note" && f.under === undefined);
  expect(open.map((f) => f.id).length).toBeLessThanOrEqual(5);
  // It is no empty question: an unknown clamp can hold a relay in.
  expect(open.some((f) => f.unknown !== undefined)).toBe(true);
});
