import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const lamps = { "E1 lamp filament": {}, "E2 lamp filament": {} };
const grounded = ["E1.b G1.-", "E2.b G1.-"];

/** A second battery behind a relay. */
const secondBattery = (button: Readonly<Record<string, unknown>>, wires: readonly string[]) =>
  sketch({
    parts: {
      "G1 battery": {},
      "G2 battery": {},
      "F1 protector": {},
      "F2 protector": {},
      "S1 switch": button,
      "K1 relay make": {},
      ...lamps,
    },
    wires: [
      "G1.+ F1.a",
      "F1.b K1.30",
      "K1.87 F2.a",
      "F2.b G2.+",
      "G2.- G1.-",
      "F1.b S1.1",
      "K1.85 G1.-",
      "F1.b E1.a",
      "F2.a E2.a",
      ...grounded,
      ...wires,
    ],
  });

/** Two fuses, each with a lamp. */
const twoFuses = (wires: readonly string[]) =>
  sketch({
    parts: { "G1 battery": {}, "F1 protector": {}, "F2 protector": {}, ...lamps },
    wires: ["G1.+ F1.a", "G1.+ F2.a", "F1.b E1.a", "F2.b E2.a", ...grounded, ...wires],
  });

const box = {
  id: "box",
  family: "module",
  kind: "power-module",
  rails: [{ id: "inside", fedBy: "1" }],
  pins: [
    { pin: "1", kind: "supply" },
    { pin: "2", kind: "ground" },
    { pin: "3", kind: "high-side", bodyDiode: "no" },
    { pin: "4", kind: "high-side", bodyDiode: "no" },
    { pin: "5", kind: "supply-out", volts: "5 V" },
  ],
};

const withBox = (parts: Readonly<Record<string, Readonly<Record<string, unknown>>>>, wires: readonly string[]) =>
  sketch({
    definitions: [box],
    parts: { "G1 battery": {}, "F1 protector": {}, "A1 module": { of: "box" }, ...parts },
    wires: ["G1.+ F1.a", "F1.b A1.1", "A1.2 G1.-", ...wires],
  });

export const conflictExamples = (): readonly RuleExample[] => [
  {
    title: "a switch joins two batteries through a relay, and nothing charges",
    loom: secondBattery({}, ["S1.2 K1.86"]),
    expects: ["fault certain conflict:G1+G2"],
  },
  {
    title: "only while a button is held",
    loom: secondBattery({ kind: "push", returns: { closed: "open" } }, ["S1.2 K1.86"]),
    expects: ["note certain conflict:G1+G2"],
  },
  {
    title: "two fuses on one wire",
    loom: twoFuses(["E1.a E2.a"]),
    expects: ["caution certain conflict:F1+F2"],
  },
  { title: "each fuse on its own wire", loom: twoFuses([]), expects: [] },
  {
    title: "a wire joins two outputs that have loads of their own",
    loom: withBox(lamps, ["A1.3 E1.a", "A1.4 E2.a", "E1.a E2.a", ...grounded]),
    expects: ["fault certain conflict:A1.3+A1.4"],
  },
  {
    title: "two outputs on one load",
    loom: withBox({ "E1 lamp filament": {} }, ["A1.3 E1.a", "A1.4 E1.a", "E1.b G1.-"]),
    expects: [],
  },
  {
    title: "battery on the 5 V supply of a controller",
    loom: withBox({ "S1 switch": {} }, ["F1.b S1.1", "S1.2 A1.5"]),
    expects: ["fault certain conflict:A1+G1"],
  },
  {
    title: "a resistor whose ohms are not given lies between",
    loom: withBox({ "S1 switch": {}, "R1 resistor": {} }, ["F1.b S1.1", "S1.2 R1.a", "R1.b A1.5"]),
    expects: [],
  },
];
