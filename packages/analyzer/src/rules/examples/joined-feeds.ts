import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const parts = { "G1 battery": {}, "F1 protector": {}, "E1 lamp filament": {}, "E2 lamp filament": {} };
const lamps = ["G1.+ F1.a", "E1.b G1.-", "E2.b G1.-"];

/** Two switches, each with a lamp. */
const twoSwitches = (more: Readonly<Record<string, Readonly<Record<string, unknown>>>>, wires: readonly string[]) =>
  sketch({
    parts: { ...parts, "S1 switch": {}, "S2 switch": {}, ...more },
    wires: [...lamps, "F1.b S1.1", "F1.b S2.1", "S1.2 E1.a", "S2.2 E2.a", ...wires],
  });

/** A key with a lamp on two of its outputs. */
const key = (joins: unknown, wires: readonly string[]) =>
  sketch({
    parts: { ...parts, "S1 key-switch": { joins } },
    wires: [...lamps, "F1.b S1.30", "S1.15 E1.a", "S1.75 E2.a", ...wires],
  });
const apart = {
  off: [],
  accessories: [["30", "75"]],
  run: [
    ["30", "75"],
    ["30", "15"],
  ],
};
const together = {
  off: [],
  run: [
    ["30", "75"],
    ["30", "15"],
  ],
};

export const joinedFeedsExamples = (): readonly RuleExample[] => [
  {
    title: "a wire joins what two switches feed",
    loom: twoSwitches({}, ["E1.a E2.a"]),
    expects: ["note certain joined-feeds:S1.2+S2.2"],
  },
  { title: "each switch has its lamp", loom: twoSwitches({}, []), expects: [] },
  {
    title: "a diode lets one switch feed both lamps",
    loom: twoSwitches({ "V1 diode": {} }, ["E1.a V1.A", "V1.K E2.a"]),
    expects: [],
  },
  {
    title: "two outputs of a key are joined",
    loom: key(apart, ["E1.a E2.a"]),
    expects: ["caution certain joined-feeds:S1.15+S1.75"],
  },
  { title: "two outputs that every position feeds together", loom: key(together, ["E1.a E2.a"]), expects: [] },
  {
    title: "two buttons for one lamp",
    loom: sketch({
      parts: { ...parts, "S1 switch push": {}, "S2 switch push": {} },
      wires: [...lamps, "F1.b S1.1", "F1.b S2.1", "S1.2 E1.a", "S2.2 E1.a", "F1.b E2.a"],
    }),
    expects: ["note certain joined-feeds:S1.2+S2.2"],
  },
  {
    title: "a changeover relay takes its feed from a switch while it is out; it feeds nothing back",
    loom: twoSwitches({ "F2 protector": {}, "K1 relay changeover": {}, "E3 lamp filament": {} }, [
      "S2.2 K1.86",
      "K1.85 G1.-",
      "F1.b F2.a",
      "F2.b K1.87",
      "S1.2 K1.87a",
      "K1.30 E3.a",
      "E3.b G1.-",
    ]),
    expects: [],
  },
];
