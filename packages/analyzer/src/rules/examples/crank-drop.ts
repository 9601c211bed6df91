import { sketch } from "@loomproof/netlist";
import type { RuleExample } from "../rule.ts";

// A key with a contact for accessories that opens while it cranks. All invented.

const KEY = {
  positions: ["off", "run", "start"],
  joins: {
    off: [],
    run: [
      ["30", "75"],
      ["30", "15"],
    ],
    start: [
      ["30", "15"],
      ["30", "50"],
    ],
  },
  returns: { start: "run" },
};

const controller = (kind: "controller" | "unit", ohms: string) => ({
  kind,
  title: "Engine controller",
  from: { kind: "invented" },
  pins: [
    { pin: "1", kind: "plain" },
    { pin: "2", kind: "plain" },
  ],
  inside: [{ kind: "resistor", between: ["1", "2"], ohms, as: "load", says: "own consumption" }],
  states: [
    {
      id: "alive",
      when: [{ volts: { between: ["1", "2"], above: "6 V", below: "4.5 V" } }],
      on: "5 ms",
      off: "20 ms",
      counts: "on",
    },
  ],
});

const fedFrom = (contact: string, kind: "controller" | "unit") =>
  sketch({
    definitions: [{ id: "box", family: "module", ...controller(kind, "60 ohm") }],
    parts: { "G1 battery": {}, "F1 protector": {}, "S1 key-switch": KEY, "A1 module": { of: "box" } },
    wires: ["G1.+ F1.a", "F1.b S1.30", `S1.${contact} A1.1`, "A1.2 G1.-"],
  });

/** With the key off the controller gets current through a parking lamp, for as long as the key stands there. */
const halfAwake = (parkingLampTo: string) => {
  const joins = { ...KEY.joins, off: [["30", "58"]] };
  return sketch({
    definitions: [{ id: "box", family: "module", ...controller("controller", "60 ohm") }],
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 key-switch": { ...KEY, joins },
      "A1 module": { of: "box" },
      "E1 lamp filament": { watts: "5 W" },
    },
    wires: ["G1.+ F1.a", "F1.b S1.30", "S1.15 A1.1", "A1.2 G1.-", "S1.58 E1.a", `E1.b ${parkingLampTo}`],
  });
};

export const crankDropExamples = (): readonly RuleExample[] => [
  {
    title: "a controller on the accessory contact, which opens while the key cranks",
    loom: fedFrom("75", "controller"),
    expects: ["fault certain crank-drop:A1"],
  },
  { title: "on the contact that stays closed", loom: fedFrom("15", "controller"), expects: [] },
  { title: "on through a lamp with the key off, and never rightly on then", loom: halfAwake("A1.1"), expects: [] },
  { title: "the lamp on ground", loom: halfAwake("G1.-"), expects: [] },
  { title: "a radio on the accessory contact is meant to go off", loom: fedFrom("75", "unit"), expects: [] },
];
