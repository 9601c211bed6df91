import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const parts = {
  "G1 battery": {},
  "F1 protector": {},
  "S1 switch": {},
  "K1 relay changeover": {},
  "E1 lamp filament": {},
};

export const chatterExamples: readonly RuleExample[] = [
  {
    title: "the coil is fed through its own rest contact",
    loom: sketch({
      parts,
      wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 K1.30", "K1.87a K1.86", "K1.85 G1.-", "K1.87 E1.a", "E1.b G1.-"],
    }),
    expects: ["fault certain chatter:K1"],
  },
  {
    title: "the coil is fed ahead of the contact",
    loom: sketch({
      parts,
      wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 K1.30", "S1.2 K1.86", "K1.85 G1.-", "K1.87 E1.a", "E1.b G1.-"],
    }),
    expects: [],
  },
  {
    title: "a resistor whose ohms are not given leaves it too weak to pull in",
    loom: sketch({
      parts: { ...parts, "R1 resistor": {} },
      wires: [
        "G1.+ F1.a",
        "F1.b S1.1",
        "S1.2 K1.30",
        "K1.87a R1.a",
        "R1.b K1.86",
        "K1.85 G1.-",
        "K1.87 E1.a",
        "E1.b G1.-",
      ],
    }),
    expects: [],
  },
];
