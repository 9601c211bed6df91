import { expect, test } from "vitest";
import { resolve } from "../loom/resolve.ts";
import { sketch } from "../loom/sketch.ts";
import { nets } from "./nets.ts";

test("a splice joins what is wired to it; a load and an open contact do not", () => {
  const loom = sketch({
    parts: { "G1 battery": {}, "X1 splice": {}, "E1 lamp": {}, "S1 switch": {} },
    wires: ["G1.+ X1", "X1 E1.a", "X1 S1.1", "E1.b G1.-"],
  });
  expect(nets(resolve(loom)).map((n) => `${n.terminals.join(" ")} by ${n.wires.join(" ")}`)).toEqual([
    "E1.a G1.+ S1.1 X1.1 by W1 W2 W3",
    "E1.b G1.- by W4",
    "S1.2 by ",
  ]);
});
