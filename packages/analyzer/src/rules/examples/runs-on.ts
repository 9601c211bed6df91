import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

type Values = Readonly<Record<string, unknown>>;
const joins = {
  off: [],
  run: [["30", "15"]],
  start: [
    ["30", "15"],
    ["30", "50"],
  ],
};

/** An engine that needs its pump; the exciter of its alternator on the same output of the key as the pump. */
const engine = (needs: Values, exciter: readonly string[], pump: Values = {}) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 key-switch": { joins },
      "M1 motor pump": { harm: "fuel", ...pump },
      "M2 motor starter": { rated: "60 A" },
      "E1 lamp indicator": { watts: "2 W", lowIsMeant: "in series with the field" },
      "X1 engine": { crankedBy: "M2", ...needs },
      "G2 alternator": { turnedBy: "X1" },
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.30",
      "S1.15 M1.+",
      "M1.- G1.-",
      "S1.50 M2.+",
      "M2.- G1.-",
      "G2.B+ F1.b",
      "G2.31 G1.-",
      "S1.15 E1.a",
      ...exciter,
    ],
  });
const needsPump = { needs: ["M1"] };

/** A pump on the key, a clock on the battery; a second battery beside. */
const secondBattery = (wires: readonly string[]) =>
  sketch({
    parts: {
      "G1 battery": {},
      "G2 battery": {},
      "F1 protector": {},
      "F2 protector": {},
      "S1 key-switch": { joins },
      "M1 motor pump": {},
      "E1 lamp indicator": {},
      "E2 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.30",
      "S1.15 M1.+",
      "M1.- G1.-",
      "F1.b E1.a",
      "E1.b G1.-",
      "G2.+ F2.a",
      "G2.- G1.-",
      "F2.b E2.a",
      "E2.b G1.-",
      ...wires,
    ],
  });

/** A fan that its controller lets run for a while. */
const afterRun = () =>
  sketch({
    definitions: [
      {
        id: "box",
        family: "module",
        rails: [{ id: "inside", fedBy: "1", draw: "0.1 A" }],
        pins: [
          { pin: "1", kind: "supply" },
          { pin: "2", kind: "ground" },
          { pin: "3", kind: "input", wants: "battery", limitDiode: "no", bias: { down: "10 kohm" } },
          { pin: "4", kind: "high-side", bodyDiode: "no" },
        ],
        logic: { awake: [{ pin: { "3": "active" } }], stayAwake: { for: "60 s" }, on: { "4": [{ awake: true }] } },
      },
    ],
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 key-switch": { joins },
      "A1 module": { of: "box" },
      "M1 motor fan": {},
    },
    wires: ["G1.+ F1.a", "F1.b S1.30", "F1.b A1.1", "A1.2 G1.-", "S1.15 A1.3", "A1.4 M1.+", "M1.- G1.-"],
  });

export const runsOnExamples = (): readonly RuleExample[] => [
  {
    title: "the exciter of the alternator is joined to the ignition with no lamp between",
    loom: engine(needsPump, ["E1.b G1.-", "G2.D+ S1.15"]),
    expects: ["danger certain runs-on:G2"],
  },
  { title: "the charge lamp lies between", loom: engine(needsPump, ["E1.b G2.D+"]), expects: [] },
  {
    title: "the charge lamp lies between, and passes enough for what the engine needs",
    loom: engine(needsPump, ["E1.b G2.D+"], { watts: "1 W" }),
    expects: ["danger certain runs-on:G2"],
  },
  {
    title: "what the engine needs is not given",
    loom: engine({}, ["E1.b G1.-", "G2.D+ S1.15"]),
    expects: [],
  },
  {
    title: "a second battery feeds what the key should switch",
    loom: secondBattery(["F2.b S1.15"]),
    expects: ["danger certain runs-on:S1.15"],
  },
  { title: "a clock and a second lamp that no key is meant to switch", loom: secondBattery([]), expects: [] },
  { title: "a controller lets its fan run for a minute", loom: afterRun(), expects: [] },
];
