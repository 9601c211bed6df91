import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const parts = { "G1 battery": {}, "F1 protector": {}, "E1 lamp filament": {} };

export const openEndExamples = (): readonly RuleExample[] => [
  {
    title: "the lamp has no return",
    loom: sketch({ parts, wires: ["G1.+ F1.a", "F1.b E1.a"] }),
    expects: ["fault certain open-end:E1.b", "fault certain open-end:G1.-"],
  },
  { title: "all is wired", loom: sketch({ parts, wires: ["G1.+ F1.a", "F1.b E1.a", "E1.b G1.-"] }), expects: [] },
  {
    title: "a lamp that sits on metal with its case",
    loom: sketch({
      parts: { "G1 battery": {}, "F1 protector": {}, "E1 lamp filament": { case: "XE1" }, "XE1 ground-point": {} },
      wires: ["G1.+ F1.a", "F1.b E1.a", "XE1.1 G1.-"],
    }),
    expects: [],
  },
  {
    title: "a wire ends at a joint",
    loom: sketch({ parts: { ...parts, "X1 splice": {} }, wires: ["G1.+ F1.a", "F1.b E1.a", "E1.b G1.-", "F1.b X1.1"] }),
    expects: ["caution certain open-end:X1.1"],
  },
];
