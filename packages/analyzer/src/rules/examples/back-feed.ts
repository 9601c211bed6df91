import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const controller = (clamp: unknown) => ({
  id: "box",
  family: "module",
  rails: [
    {
      id: "inside",
      fedBy: "1",
      draw: [
        ["0 V", "0 A"],
        ["5 V", "0.3 A"],
        ["16 V", "0.3 A"],
      ],
    },
  ],
  pins: [
    { pin: "1", kind: "supply" },
    { pin: "2", kind: "ground" },
    { pin: "3", kind: "low-side", clamp },
  ],
});

/** A coil fed all the time on an output of a controller that is switched off: 8 V over the coil through its clamp. */
const withClamp = (clamp: unknown, coilFrom: string) =>
  sketch({
    definitions: [controller(clamp)],
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "A1 module": { of: "box" },
      "K1 relay make": {},
      "E1 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 A1.1",
      "A1.2 G1.-",
      `${coilFrom} K1.86`,
      "K1.85 A1.3",
      "F1.b K1.30",
      "K1.87 E1.a",
      "E1.b G1.-",
    ],
  });

/** S1 selects the feed of E1: from what S2 switches, which also feeds E2, or from what S3 does. */
const selector = (joins: Readonly<Record<string, readonly (readonly [string, string])[]>>) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": { joins },
      "S2 switch": {},
      "S3 switch": {},
      "E1 lamp filament": {},
      "E2 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S2.1",
      "F1.b S3.1",
      "S2.2 S1.1",
      "S3.2 S1.3",
      "S1.2 E1.a",
      "S2.2 E2.a",
      "E1.b G1.-",
      "E2.b G1.-",
    ],
  });

export const backFeedExamples = (): readonly RuleExample[] => [
  {
    title: "the coil is fed all the time and the output has a diode to its supply",
    loom: withClamp({ kind: "diode", to: "inside" }, "F1.b"),
    expects: ["fault certain back-feed:A1+K1"],
  },
  {
    title: "the coil hangs on the same switch as the controller",
    loom: withClamp({ kind: "diode", to: "inside" }, "S1.2"),
    expects: [],
  },
  { title: "the output clamps to ground", loom: withClamp({ kind: "zener", volts: "42 V" }, "F1.b"), expects: [] },
  {
    title: "whether the output has a diode is not known",
    loom: withClamp("unknown", "F1.b"),
    expects: ["caution possible back-feed:A1+K1"],
  },
  {
    title: "a selector has a position that joins both feeds: one feeds what hangs on the other",
    loom: selector({
      one: [["1", "2"]],
      both: [
        ["1", "2"],
        ["2", "3"],
      ],
      two: [["2", "3"]],
    }),
    expects: ["fault certain back-feed:E2+S1"],
  },
  {
    title: "a selector of one of two feeds",
    loom: selector({ one: [["1", "2"]], two: [["2", "3"]] }),
    expects: [],
  },
];
