import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const parts = { "G1 battery": {}, "F1 protector": {}, "S1 switch": {}, "A1 module": { of: "box" } };
const supply = ["G1.+ F1.a", "F1.b A1.1", "A1.2 G1.-"];

const box = (pins: readonly unknown[]) => ({
  id: "box",
  family: "module",
  rails: [{ id: "inside", fedBy: "1", draw: "0.2 A" }],
  pins: [{ pin: "1", kind: "supply" }, { pin: "2", kind: "ground" }, ...pins],
});

/** A switch on an input of a controller. */
const withInput = (
  input: Readonly<Record<string, unknown>>,
  wires: readonly string[],
  more: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {},
) =>
  sketch({
    definitions: [box([{ pin: "3", kind: "input", limitDiode: "no", ...input }])],
    parts: { ...parts, ...more },
    wires: [...supply, ...wires],
  });

/** A start relay whose coil hangs on an output of a controller. */
const withCoil = (output: string, coilTo: string) =>
  sketch({
    definitions: [box([{ pin: "3", kind: output, clamp: "none", feed: output === "low-side" ? undefined : "1" }])],
    parts: { ...parts, "K1 relay make": {}, "E1 lamp filament": {} },
    wires: [...supply, "A1.3 K1.85", `K1.86 ${coilTo}`, "F1.b S1.1", "S1.2 K1.30", "K1.87 E1.a", "E1.b G1.-"],
  });

/** A lamp that stands on metal with its case and is switched in its return. */
const onMetal = (values: Readonly<Record<string, unknown>>) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "E1 lamp filament": values,
      "XE1 ground-point": {},
    },
    wires: ["G1.+ F1.a", "F1.b E1.a", "E1.b S1.1", "S1.2 XE1", "XE1 G1.-"],
  });

export const wrongSideExamples = (): readonly RuleExample[] => [
  {
    title: "a low-side output on a coil whose other end is grounded",
    loom: withCoil("low-side", "G1.-"),
    expects: ["fault certain wrong-side:A1.3+K1"],
  },
  { title: "the other end of the coil is fed", loom: withCoil("low-side", "F1.b"), expects: [] },
  {
    title: "a high-side output on a coil whose other end is fed",
    loom: withCoil("high-side", "F1.b"),
    expects: ["fault certain wrong-side:A1.3+K1"],
  },
  { title: "half a bridge gives feed and ground by turns", loom: withCoil("half-bridge", "F1.b"), expects: [] },
  {
    title: "battery on an input that wants ground",
    loom: withInput({ wants: "ground" }, ["F1.b S1.1", "S1.2 A1.3"]),
    expects: ["fault certain wrong-side:A1.3"],
  },
  {
    title: "ground on an input that wants battery",
    loom: withInput({ wants: "battery" }, ["G1.- S1.1", "S1.2 A1.3"]),
    expects: ["fault certain wrong-side:A1.3"],
  },
  {
    title: "ground on an input that wants ground",
    loom: withInput({ wants: "ground" }, ["G1.- S1.1", "S1.2 A1.3"]),
    expects: [],
  },
  {
    title: "an input that wants ground is tied to battery for good",
    loom: withInput({ wants: "ground" }, ["F1.b A1.3", "F1.b S1.1", "S1.2 A1.3"]),
    expects: [],
  },
  {
    title: "a resistor pulls an input up that wants ground, and the switch is another's",
    loom: withInput({ wants: "ground" }, ["F1.b R1.a", "R1.b A1.3", "F1.b S1.1", "S1.2 E1.a", "E1.b G1.-"], {
      "R1 resistor": {},
      "E1 lamp filament": {},
    }),
    expects: [],
  },
  {
    title: "what the input wants is not given",
    loom: withInput({}, ["G1.- S1.1", "S1.2 A1.3"]),
    expects: [],
  },
  {
    title: "a lamp that stands on metal is switched in its return",
    loom: onMetal({ case: "XE1" }),
    expects: ["caution certain wrong-side:S1"],
  },
  { title: "the same lamp stands on nothing", loom: onMetal({}), expects: [] },
];
