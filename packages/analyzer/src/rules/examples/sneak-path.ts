import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const parts = {
  "G1 battery": {},
  "F1 protector": {},
  "S1 switch": {},
  "S2 switch": {},
  "E1 lamp filament": { watts: "21 W" },
  "E2 lamp indicator": { watts: "2 W" },
};

/** A tell-tale between two switched lines: with one on it lights through the lamp of the other. */
const tellTale = (telltaleTo: string, values: Readonly<Record<string, unknown>> = {}) =>
  sketch({
    parts: { ...parts, "E2 lamp indicator": { watts: "2 W", ...values } },
    wires: ["G1.+ F1.a", "F1.b S1.1", "F1.b S2.1", "S1.2 E1.a", "E1.b G1.-", "S2.2 E2.a", `E2.b ${telltaleTo}`],
  });

export const sneakPathExamples = (): readonly RuleExample[] => [
  {
    title: "two lamps lose their common ground and find one through a third",
    loom: sketch({
      parts: {
        ...parts,
        "E3 lamp filament": { watts: "21 W" },
        "S3 switch": { joins: { open: [], closed: [["1", "2"]] } },
        "X1 splice": {},
      },
      wires: [
        "G1.+ F1.a",
        "F1.b S1.1",
        "F1.b S2.1",
        "S1.2 E1.a",
        "S2.2 E2.a",
        "E1.b X1",
        "E2.b X1",
        "X1 S3.1",
        "S3.2 G1.-",
        "S1.2 E3.a",
        "E3.b G1.-",
      ],
    }),
    expects: ["fault certain sneak-path:E1+E2"],
  },
  { title: "each lamp has its own ground", loom: tellTale("G1.-"), expects: [] },
  {
    title: "a tell-tale that always hangs on another lamp",
    loom: tellTale("S1.2"),
    expects: ["note certain sneak-path:E1+E2"],
  },
  {
    title: "the owner says that it is meant",
    loom: tellTale("S1.2", { lowIsMeant: "in series with E1" }),
    expects: [],
  },
];
