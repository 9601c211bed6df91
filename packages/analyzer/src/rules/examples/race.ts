import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

// Two relays on one switch, each with its coil behind the rest contact of the other: the faster one locks the slower one
// out. All invented.

const locked = (first: string, second: string, between: readonly string[]) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "K1 relay changeover": { operateTime: first },
      "K2 relay changeover": { operateTime: second },
      "E1 lamp filament": {},
      "E2 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "K1.85 G1.-",
      "K2.85 G1.-",
      "F1.b K1.30",
      "F1.b K2.30",
      "K1.87 E1.a",
      "E1.b G1.-",
      "K2.87 E2.a",
      "E2.b G1.-",
      ...between,
    ],
  });

/** K1 pulls in through a diode from the rest contact of K2, which has feed only while the switch is on: and the reverse. */
const crossed = (first: string, second: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "K1 relay changeover": { operateTime: first },
      "K2 relay changeover": { operateTime: second },
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K1.30",
      "S1.2 K2.30",
      "K1.87a K2.86",
      "K2.87a K1.86",
      "K1.85 G1.-",
      "K2.85 G1.-",
    ],
  });

export const raceExamples = (): readonly RuleExample[] => [
  {
    title: "each relay is fed through the rest contact of the other, times not given",
    loom: crossed("15 ms", "15 ms"),
    expects: ["fault certain race:K1+K2"],
  },
  {
    title: "the same, with one always much faster",
    loom: crossed("3 ms", "15 ms"),
    expects: [],
  },
  {
    title: "both on the switch, neither takes anything from the other",
    loom: locked("15 ms", "15 ms", ["S1.2 K1.86", "S1.2 K2.86"]),
    expects: [],
  },
];
