import { type Loom, sketch } from "@loomproof/netlist";

// Relays that stay in: on purpose, by mistake, or only because one was faster than another. All invented.

const given = { operate: ["5 V", "7.2 V"], release: ["1.2 V", "2.4 V"] };

const startStop = {
  "G1 battery": {},
  "F1 protector": {},
  "S1 switch push": {},
  "S2 switch push-break": {},
  "K1 relay": {
    ...given,
    contacts: [
      { common: "30", make: "87" },
      { common: "40", make: "47" },
    ],
  },
  "M1 motor pump": {},
};
const startStopWires = [
  "G1.+ F1.a",
  "F1.b S2.1",
  "S2.2 S1.1",
  "S1.2 K1.86",
  "K1.85 G1.-",
  "S2.2 K1.40",
  "K1.47 K1.86",
  "F1.b K1.30",
  "K1.87 M1.+",
  "M1.- G1.-",
];
const claim: Loom["meant"][number] = {
  id: "m1",
  "seal-in": "K1",
  through: ["40", "47"],
  set: [{ S1: "closed" }],
  clear: [{ S2: "pressed" }],
};

/** A pump with a start and a stop button. */
export const undeclared = sketch({ parts: startStop, wires: startStopWires });
export const declared: Loom = { ...undeclared, meant: [claim] };

/** Beside it a tell-tale that a controller pulls to ground, whose pin leads by a clamp to the controller's own supply. */
const withController = (clamp: unknown): Loom => ({
  ...sketch({
    definitions: [
      {
        id: "box",
        family: "module",
        rails: [{ id: "inside", fedBy: "1", draw: "5 mA" }],
        pins: [
          { pin: "1", kind: "supply" },
          { pin: "2", kind: "ground" },
          { pin: "3", kind: "low-side", clamp, bodyDiode: "no" },
        ],
        logic: { awake: [{}] },
      },
    ],
    parts: { ...startStop, "A1 module": { of: "box" }, "E1 lamp indicator": { watts: "0.8 W" } },
    wires: [...startStopWires, "F1.b E1.a", "E1.b A1.3", "A1.1 K1.86", "A1.2 G1.-"],
  }),
  meant: [claim],
});
export const heldByClamp = withController({ kind: "diode", to: "inside" });
export const noClamp = withController("none");

/** A controller that pulls in its own main relay and lets it go some seconds after the key. */
export const holdUp = sketch({
  definitions: [
    {
      id: "box",
      family: "module",
      rails: [{ id: "inside", fedBy: "1", draw: "0.1 A" }],
      pins: [
        { pin: "1", kind: "supply" },
        { pin: "2", kind: "ground" },
        {
          pin: "3",
          kind: "input",
          wants: "battery",
          bias: { down: "10 kohm" },
          wakes: true,
          wakeFeeds: ["4"],
          limitDiode: "no",
        },
        { pin: "4", kind: "low-side", clamp: { kind: "zener", volts: "42 V" } },
      ],
      logic: { awake: [{ pin: { "3": "active" } }], stayAwake: { for: "8 s" }, on: { "4": [{ awake: true }] } },
    },
  ],
  parts: {
    "G1 battery": {},
    "F1 protector": {},
    "S1 key-switch": { joins: { off: [], run: [["30", "15"]] } },
    "K1 relay make": given,
    "A1 module": { of: "box" },
    "M1 motor pump": {},
  },
  wires: [
    "G1.+ F1.a",
    "F1.b S1.30",
    "S1.15 A1.3",
    "F1.b K1.86",
    "K1.85 A1.4",
    "F1.b K1.30",
    "K1.87 A1.1",
    "A1.2 G1.-",
    "K1.87 M1.+",
    "M1.- G1.-",
  ],
});

/** A fan that a timer lets run on for two minutes after the key. */
export const afterRun = sketch({
  definitions: [
    {
      id: "timer",
      family: "module",
      kind: "unit",
      pins: [
        { pin: "30", kind: "plain" },
        { pin: "15", kind: "plain" },
        { pin: "31", kind: "plain" },
        { pin: "87", kind: "plain" },
      ],
      inside: [
        { kind: "resistor", between: ["15", "31"], ohms: "1 kohm", as: "stray", says: "input" },
        { kind: "driver", between: ["30", "87"], ohms: "20 mohm", when: [{ state: { timed: true } }], says: "output" },
      ],
      states: [{ id: "timed", when: [{ volts: { between: ["15", "31"], above: "6 V", below: "4 V" } }], off: "120 s" }],
    },
  ],
  parts: {
    "G1 battery": {},
    "F1 protector": {},
    "F2 protector": {},
    "S1 key-switch": { joins: { off: [], run: [["30", "15"]] } },
    "K1 relay make": given,
    "A1 module": { of: "timer" },
    "M1 motor fan": {},
  },
  wires: [
    "G1.+ F1.a",
    "G1.+ F2.a",
    "F1.b S1.30",
    "S1.15 A1.15",
    "F1.b A1.30",
    "A1.31 G1.-",
    "A1.87 K1.86",
    "K1.85 G1.-",
    "F2.b K1.30",
    "K1.87 M1.+",
    "M1.- G1.-",
  ],
});

/** Two relays on one switch; the rest contact of K1 can give K2 the feed that K2 itself switches. */
const behindRestContact = (releaseMs: { readonly k1: number; readonly k2: number }, restContactTo: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {
        joins: {
          off: [],
          on: [
            ["1", "2"],
            ["1", "3"],
          ],
        },
      },
      "K1 relay changeover": { ...given, operateTime: "3 ms", releaseTime: `${releaseMs.k1} ms` },
      "K2 relay make": { ...given, operateTime: "3 ms", releaseTime: `${releaseMs.k2} ms` },
      "E1 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K1.86",
      "K1.85 G1.-",
      "S1.3 K2.86",
      "K2.85 G1.-",
      "F1.b K2.30",
      "K2.87 K1.30",
      "K2.87 E1.a",
      "E1.b G1.-",
      `K1.87a ${restContactTo}`,
    ],
  });
export const caughtHold = (k1: number, k2: number) => behindRestContact({ k1, k2 }, "K2.86");
/** The make contact of K1 is wired too: then the contact is in the air before it gives K2 its feed. */
export const caughtOnTheWay = (k1: number, k2: number): Loom => {
  const { parts, wires, ...rest } = caughtHold(k1, k2);
  const beside = sketch({ parts: { "E2 lamp filament": {} }, wires: ["K1.87 E2.a", "E2.b G1.-"] });
  const more = beside.wires.map((w) => ({ ...w, id: `${w.id}b` }));
  return { ...rest, parts: [...parts, ...beside.parts], wires: [...wires, ...more] };
};
export const restContactToLamp = behindRestContact({ k1: 5, k2: 9 }, "E1.a");

/** A tell-tale of 0.8 W behind the contact of K1, led to its coil or to ground. */
const tellTale = (releaseMs: number, lampTo: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "E1 lamp indicator": { watts: "0.8 W", lowIsMeant: "in series with a coil" },
      "K1 relay make": { operate: ["6 V", "7.2 V"], release: ["1.2 V", "2.4 V"], releaseTime: `${releaseMs} ms` },
      "M1 motor pump": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K1.86",
      "K1.85 G1.-",
      "K1.87 E1.a",
      `E1.b ${lampTo}`,
      "F1.b K1.30",
      "K1.87 M1.+",
      "M1.- G1.-",
    ],
  });
export const standingHold = (releaseMs: number) => tellTale(releaseMs, "K1.86");
export const tellTaleToGround = tellTale(20, "G1.-");

/** A battery switch in the shape of a latching relay, and behind it the relay that a tell-tale holds, or does not. */
const behindLatching = (delivered: "out" | "in", lampTo: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S2 switch push": {},
      "S3 switch push": {},
      "K9 relay latching": { delivered, windings: [{ between: ["86", "85"] }, { between: ["85r", "86r"] }] },
      "S1 switch": {},
      "E1 lamp indicator": { watts: "0.8 W", lowIsMeant: "in series with a coil" },
      "K1 relay make": { operate: ["6 V", "7.2 V"], release: ["1.2 V", "2.4 V"] },
      "M1 motor pump": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S2.1",
      "S2.2 K9.86",
      "K9.85 G1.-",
      "F1.b S3.1",
      "S3.2 K9.86r",
      "K9.85r G1.-",
      "F1.b K9.30",
      "K9.87 S1.1",
      "S1.2 K1.86",
      "K1.85 G1.-",
      "K9.87 E1.a",
      `E1.b ${lampTo}`,
      "K9.87 K1.30",
      "K1.87 M1.+",
      "M1.- G1.-",
    ],
  });
export const latchingWithHold = (delivered: "out" | "in") => behindLatching(delivered, "K1.86");
export const latchingWithoutHold = (delivered: "out" | "in") => behindLatching(delivered, "G1.-");
