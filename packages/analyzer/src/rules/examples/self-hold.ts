import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";
import { behindRestContact } from "./rest-contact.ts";

const given = { operate: ["6 V", "7.2 V"], release: ["1.2 V", "2.4 V"] };

/** A tell-tale lamp from a permanent feed onto the coil: 4.5 V, too little to pull it in, enough to keep it. */
const withLamp = (relay: Readonly<Record<string, unknown>>, lampTo: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "E1 lamp indicator": { watts: "0.8 W" },
      "K1 relay make": relay,
      "M1 motor pump": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K1.86",
      "K1.85 G1.-",
      "F1.b E1.a",
      `E1.b ${lampTo}`,
      "F1.b K1.30",
      "K1.87 M1.+",
      "M1.- G1.-",
    ],
  });

export const selfHoldExamples = (): readonly RuleExample[] => [
  { title: "a lamp holds the pump relay", loom: withLamp(given, "K1.86"), expects: ["danger certain self-hold:K1"] },
  { title: "the lamp goes to ground", loom: withLamp(given, "G1.-"), expects: [] },
  {
    title: "the volts at which the relay lets go are not given",
    loom: withLamp({ operate: given.operate }, "K1.86"),
    expects: ["danger possible self-hold:K1"],
  },
  {
    title: "a start and a stop button",
    loom: sketch({
      parts: {
        "G1 battery": {},
        "F1 protector": {},
        "S1 switch push": {},
        "S2 switch push-break": {},
        "K1 relay make": {},
        "M1 motor pump": {},
      },
      wires: [
        "G1.+ F1.a",
        "F1.b S2.1",
        "S2.2 S1.1",
        "S1.2 K1.86",
        "K1.85 G1.-",
        "S2.2 K1.30",
        "K1.87 K1.86",
        "K1.87 M1.+",
        "M1.- G1.-",
      ],
    }),
    expects: ["note certain self-hold:K1"],
  },
  {
    title: "caught: a rest contact closes before the slower relay has let go, in every order",
    loom: behindRestContact("9 ms"),
    expects: ["fault certain self-hold:K2"],
  },
  {
    title: "caught or not, by times that the loom gives as spans",
    loom: behindRestContact(["2 ms", "9 ms"]),
    expects: ["fault possible self-hold:K2"],
  },
];
