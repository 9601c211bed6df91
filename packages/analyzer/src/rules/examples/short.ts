import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const parts = { "G1 battery": {}, "F1 protector": {}, "S1 switch": {}, "E1 lamp filament": {} };

export const shortExamples = (): readonly RuleExample[] => [
  {
    title: "the switch is wired to ground",
    loom: sketch({ parts, wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 G1.-", "F1.b E1.a", "E1.b G1.-"] }),
    expects: ["danger certain short:S1.2"],
  },
  {
    title: "the switch feeds a lamp",
    loom: sketch({ parts, wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 E1.a", "E1.b G1.-"] }),
    expects: [],
  },
  {
    title: "a resistor whose ohms are not given lies between",
    loom: sketch({
      parts: { ...parts, "R1 resistor": {} },
      wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 R1.a", "R1.b G1.-", "S1.2 E1.a", "E1.b G1.-"],
    }),
    expects: [],
  },
];
