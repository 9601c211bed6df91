import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const parts = { "G1 battery": {}, "F1 protector": {}, "S1 switch": {}, "K1 relay make": {}, "E1 lamp filament": {} };
const lamp = ["F1.b K1.30", "K1.87 E1.a", "E1.b G1.-"];

export const unreachableExamples = (): readonly RuleExample[] => [
  {
    title: "coil and contact are exchanged in the socket",
    loom: sketch({
      parts,
      wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 K1.87", "K1.85 G1.-", "F1.b K1.30", "K1.86 E1.a", "E1.b G1.-"],
    }),
    expects: ["fault certain unreachable:E1", "fault certain unreachable:K1"],
  },
  {
    title: "wired as meant",
    loom: sketch({ parts, wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 K1.86", "K1.85 G1.-", ...lamp] }),
    expects: [],
  },
  {
    title: "a resistor leaves the coil 6 V; whether it pulls in then is not given",
    loom: sketch({
      parts: { ...parts, "R1 resistor": { ohms: "95 ohm" } },
      wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 R1.a", "R1.b K1.86", "K1.85 G1.-", ...lamp],
    }),
    expects: [],
  },
];
