import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const parts = {
  "G1 battery": {},
  "F1 protector": {},
  "S1 switch": {},
  "K1 relay changeover": {},
  "E1 lamp filament": {},
};

/** K2 takes 80 ms, and then feeds the coil of K1 for good. */
const untilSlow = (first: string) =>
  sketch({
    parts: { ...parts, "K2 relay make": { operateTime: "80 ms" } },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K1.30",
      "S1.2 K2.86",
      "K2.85 G1.-",
      "S1.2 K2.30",
      "K2.87 K1.86",
      "K1.85 G1.-",
      "K1.87 E1.a",
      "E1.b G1.-",
      first,
    ],
  });

export const chatterExamples = (): readonly RuleExample[] => [
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
    title: "the same coil gets a feed that stays once a slow relay is in: it rattles until then",
    loom: untilSlow("K1.87a K1.86"),
    expects: ["caution possible chatter:K1"],
  },
  {
    title: "a slow relay takes over from a feed that does not move",
    loom: untilSlow("S1.2 K1.86"),
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
