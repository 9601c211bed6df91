import { drawingOf, layout, type Placed, scene } from "@loomproof/drawing";
import { type Loom, parse, type ResolvedLoom, resolve, write } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { exampleLoom } from "../examples/examples.ts";
import { inventedMachine, inventedTractor } from "./invented.ts";

// A drawing goes into the file and comes out of it as it was: what a helper opens is what the owner drew.

const looms: readonly (readonly [string, Loom])[] = [
  ["fuel-feed", exampleLoom("fuel-feed")],
  ["marigold-first", exampleLoom("marigold-first")],
  ["marigold-cured, in zones", exampleLoom("marigold-cured")],
  ["an invented tractor", inventedTractor()],
  ["an invented machine in zones", inventedMachine(5)],
];

/** Through the file: as text, and read again. */
function again(loom: Loom, placed: Placed): { readonly loom: ResolvedLoom; readonly placed: Placed } {
  const read = parse(write({ ...loom, drawing: drawingOf(placed) }));
  if (!read.ok) throw new Error(JSON.stringify(read.problems.slice(0, 3)));
  const resolved = resolve(read.loom);
  return { loom: resolved, placed: layout(resolved, { drawing: read.loom.drawing }) };
}

describe.each(looms)("%s", (_, loom) => {
  const resolved = resolve(loom);
  const placed = layout(resolved, { starts: 1 });

  test("is drawn from its file as it was, to the point", () => {
    const kept = again(loom, placed);
    expect(drawingOf(kept.placed)).toEqual(drawingOf(placed));
    expect(scene(kept.loom, kept.placed)).toEqual(scene(resolved, placed));
  });
});
