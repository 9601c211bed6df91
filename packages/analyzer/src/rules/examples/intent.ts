import { type Loom, sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

const joins = {
  off: [],
  run: [["30", "15"]],
};

const wanting = (loom: Loom, intents: Loom["intents"]): Loom => ({ ...loom, intents });

/** A pump behind a relay that the key pulls in. Its coil has its feed from `feed`. */
const pump = (feed: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 key-switch": { joins, label: "Key" },
      "S2 switch": { label: "Fan" },
      "K1 relay make": {},
      "M1 motor pump": { label: "Pump" },
      "M2 motor fan": { label: "Fan" },
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.30",
      `${feed} K1.86`,
      "K1.85 G1.-",
      "F1.b K1.30",
      "K1.87 M1.+",
      "M1.- G1.-",
      "F1.b S2.1",
      "S2.2 M2.+",
      "M2.- G1.-",
    ],
  });

/** A fan by a controller whose logic is told or not; it stays awake for a while. */
const boxed = (on: Readonly<Record<string, unknown>>, draw: Readonly<Record<string, unknown>>) =>
  sketch({
    definitions: [
      {
        id: "box",
        family: "module",
        rails: [{ id: "inside", fedBy: "1", ...draw }],
        pins: [
          { pin: "1", kind: "supply" },
          { pin: "2", kind: "ground" },
          { pin: "3", kind: "input", wants: "battery", limitDiode: "no", bias: { down: "10 kohm" } },
          { pin: "4", kind: "high-side", bodyDiode: "no" },
        ],
        logic: { awake: [{ pin: { "3": "active" } }], stayAwake: { for: ["20 s", "40 s"] }, on },
      },
    ],
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 key-switch": { joins, label: "Key" },
      "A1 module": { of: "box" },
      "M1 motor fan": { label: "Fan" },
    },
    wires: ["G1.+ F1.a", "F1.b S1.30", "F1.b A1.1", "A1.2 G1.-", "S1.15 A1.3", "A1.4 M1.+", "M1.- G1.-"],
  });
const afterRun = () => boxed({ "4": [{ awake: true }] }, { draw: "0.01 A" });

const onlyInRun = { id: "w", load: "M1", onOnlyWhen: [{ S1: "run" }] };
const little = { id: "w", battery: "G1", below: "30 mA" };
const within = (time: string) => ({ id: "w", load: "M1", offWithin: time, after: { S1: "off" } });
const apart = { id: "w", load: "M1", neverWith: ["M2"] };

export const intentExamples = (): readonly RuleExample[] => [
  {
    title: "a pump that is wanted only in run hangs on the battery",
    loom: wanting(pump("F1.b"), [onlyInRun]),
    expects: ["danger certain intent:w"],
  },
  { title: "it hangs on the key", loom: wanting(pump("S1.15"), [onlyInRun]), expects: [] },
  {
    title: "wanted on in run, with its coil on nothing",
    loom: wanting(pump("M2.-"), [{ id: "w", load: "M1", onWhen: [{ S1: "run" }] }]),
    expects: ["fault certain intent:w"],
  },
  {
    title: "wanted on in run, and it is",
    loom: wanting(pump("S1.15"), [{ id: "w", load: "M1", onWhen: [{ S1: "run" }] }]),
    expects: [],
  },
  {
    title: "a pump drains the battery at rest",
    loom: wanting(pump("F1.b"), [little]),
    expects: ["fault certain intent:w"],
  },
  { title: "nothing draws at rest", loom: wanting(pump("S1.15"), [little]), expects: [] },
  {
    title: "two that must never be together are on two switches",
    loom: wanting(pump("S1.15"), [apart]),
    expects: ["danger certain intent:w"],
  },
  {
    title: "the fan runs on for 40 s at most, and a minute is allowed",
    loom: wanting(afterRun(), [within("1 min")]),
    expects: [],
  },
  {
    title: "the fan runs on for 20 s at least, and 10 s are allowed",
    loom: wanting(afterRun(), [within("10 s")]),
    expects: ["danger certain intent:w"],
  },
  {
    title: "the fan runs on for 20 to 40 s, and 30 s are allowed",
    loom: wanting(afterRun(), [within("30 s")]),
    expects: ["danger possible intent:w"],
  },
  {
    title: "what the output for the fan waits for is not given",
    loom: wanting(boxed({}, { draw: "0.01 A" }), [{ id: "w", load: "M1", onOnlyWhen: [{ S1: "off" }] }]),
    expects: [],
  },
  { title: "what the controller draws is not given", loom: wanting(boxed({}, {}), [little]), expects: [] },
];
