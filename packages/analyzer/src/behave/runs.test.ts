import { connect, newLoom, newPart } from "@loomproof/netlist";
import { expect, test } from "vitest";
import { compile } from "../circuit/compile.ts";
import { runsOf } from "./runs.ts";

// A controller from the shelf, most of whose pins are unknown.
const bare = newPart(newPart(newLoom(), "battery").loom, "module", undefined, "@injection-controller").loom;

test("an unknown pin that nothing is wired to makes no run; a wired one makes its own", () => {
  const unknown = (loom: Parameters<typeof compile>[0]) => new Set(runsOf(compile(loom)).flatMap((r) => r.present));
  expect(unknown(bare)).toEqual(new Set());
  expect(unknown(connect(bare, "A1.10", "G1.+").loom)).toEqual(new Set(["A1.10 diode"]));
});
