import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

type Values = Readonly<Record<string, unknown>>;

/** A pump on a relay with two buttons; a seat switch in one of their feeds. */
const twoButtons = (seat: Values, second: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch seat": { role: "guard", joins: { empty: [], taken: [["1", "2"]] }, ...seat },
      "S2 switch push": {},
      "S3 switch push": {},
      "K1 relay make": {},
      "M1 motor pump": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 S2.1",
      `${second} S3.1`,
      "S2.2 K1.86",
      "S3.2 K1.86",
      "K1.85 G1.-",
      "F1.b K1.30",
      "K1.87 M1.+",
      "M1.- G1.-",
    ],
  });
const stops = { stops: { empty: ["M1"] } };

/** A pump and a clock behind an isolator, or one of them ahead of it. */
const isolated = (isolator: Values, pump: string, clock: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch isolator": { role: "isolator", ...isolator },
      "S2 switch": {},
      "M1 motor pump": {},
      "E1 lamp indicator": {},
    },
    wires: ["G1.+ F1.a", "F1.b S1.1", `${pump} S2.1`, "S2.2 M1.+", "M1.- G1.-", `${clock} E1.a`, "E1.b G1.-"],
  });

export const guardBypassedExamples = (): readonly RuleExample[] => [
  {
    title: "the second button is fed ahead of the seat switch",
    loom: twoButtons(stops, "F1.b"),
    expects: ["danger certain guard-bypassed:M1+S1"],
  },
  { title: "both buttons are fed behind the seat switch", loom: twoButtons(stops, "S1.2"), expects: [] },
  { title: "what the seat switch must stop is not given", loom: twoButtons({}, "F1.b"), expects: [] },
  {
    title: "a pump is fed ahead of the isolator",
    loom: isolated({}, "F1.b", "S1.2"),
    expects: ["danger certain guard-bypassed:M1+S1"],
  },
  { title: "only a clock is fed ahead of the isolator", loom: isolated({}, "S1.2", "F1.b"), expects: [] },
  {
    title: "the pump ahead of the isolator is meant: the isolator stops something else",
    loom: isolated({ stops: { open: ["E1"] } }, "F1.b", "S1.2"),
    expects: [],
  },
];
