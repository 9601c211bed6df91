import { type Loom, sketch } from "@loomproof/netlist";

// Sources that nobody thinks of: an alternator that still turns, a fan in the wind, a second battery, a winding. All
// invented.

const joins = {
  off: [],
  run: [["30", "15"]],
  start: [
    ["30", "15"],
    ["30", "50"],
  ],
};

type Parts = Readonly<Record<string, Readonly<Record<string, unknown>>>>;
const chargeLamp = (watts: string) => ({ watts, lowIsMeant: "in series with the field" });
const smallStarter = { pullIn: "1.5 ohm", holdIn: "4 ohm", rated: "60 A" };

/** A diesel that stops when its fuel valve has no current. The charge lamp and `fed` hang on the key. */
const diesel = (fed: string, parts: Parts, wires: readonly string[]) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 key-switch": { joins },
      "M2 starter": smallStarter,
      "X1 engine": { crankedBy: "M2", needs: ["Y1"] },
      "G2 alternator": {},
      "E1 lamp indicator": chargeLamp("5 W"),
      "Y1 motor": { watts: "3 W", harm: "fuel", label: "Fuel valve" },
      ...parts,
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.30",
      "S1.50 M2.50",
      "G1.+ M2.30",
      "M2.31 G1.-",
      "G1.+ G2.B+",
      "G2.31 G1.-",
      "Y1.- G1.-",
      `S1.15 ${fed}`,
      ...wires,
    ],
  });
export const keptByChargeLamp = diesel("Y1.+", {}, ["S1.15 E1.a", "E1.b G2.D+"]);
export const keptWithTellTale = diesel("Y1.+", { "E3 lamp indicator": { watts: "1.2 W" } }, [
  "S1.15 E1.a",
  "E1.b G2.D+",
  "S1.15 E3.a",
  "E3.b G1.-",
]);
/** A heater on the same output of the key: behind the lamp it leaves the valve next to nothing. */
export const chargeLampLoaded = diesel("Y1.+", { "E4 heater": { rated: "5 A" } }, [
  "S1.15 E1.a",
  "E1.b G2.D+",
  "S1.15 E4.a",
  "E4.b G1.-",
]);
export const chargeLampBehindDiode = diesel("Y1.+", { "V1 diode": {} }, ["S1.15 V1.A", "V1.K E1.a", "E1.b G2.D+"]);

/** The valve on a relay of its own, and only the relay's coil on the key. */
const valveOnRelay = (lamp: readonly string[]) =>
  diesel("K1.86", { "K1 relay make": { operate: ["5 V", "7.2 V"], release: ["1.2 V", "2.4 V"] }, "V1 diode": {} }, [
    "K1.85 G1.-",
    "F1.b K1.30",
    "K1.87 Y1.+",
    "E1.b G2.D+",
    ...lamp,
  ]);
export const relayKeptByChargeLamp = valveOnRelay(["S1.15 E1.a", "V1.A K1.85", "V1.K K1.86"]);
export const relayBesideDiode = valveOnRelay(["S1.15 V1.A", "V1.K E1.a"]);

/** A fan behind the output of a power module; the wind can turn it. */
const fanInTheWind = (parts: Parts, wires: readonly string[]): Loom => ({
  ...sketch({
    definitions: [
      {
        id: "box",
        family: "module",
        kind: "power-module",
        rails: [{ id: "inside", fedBy: "1", draw: "50 mA", wakesAt: "6 V", resetsAt: "5 V" }],
        pins: [
          { pin: "1", kind: "supply" },
          { pin: "2", kind: "ground" },
          { pin: "3", kind: "high-side", feed: "1", bodyDiode: "yes" },
        ],
        logic: { awake: [{}] },
      },
    ],
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": { role: "master" },
      "A1 module": { of: "box" },
      "M1 motor fan": { ohms: "0.6 ohm", emf: { input: "wind", volts: { strong: "8 V" } } },
      ...parts,
    },
    wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 A1.1", "A1.2 G1.-", "M1.- G1.-", ...wires],
  }),
  world: [{ id: "wind", values: ["still", "strong"], usual: "still" }],
});
export const windWakes = fanInTheWind({}, ["A1.3 M1.+"]);
export const windBlocked = fanInTheWind({ "V1 diode": {} }, ["A1.3 V1.A", "V1.K M1.+"]);

/** Two batteries on one alternator. A diode keeps the first from its output; a relay joins the second while it gives. */
const splitCharge = (coilFrom: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "G2 battery": {},
      "G3 alternator": {},
      "F1 protector": {},
      "F2 protector": {},
      "F3 protector": {},
      "S1 key-switch": { joins },
      "M2 starter": smallStarter,
      "X1 engine": { crankedBy: "M2" },
      "E1 lamp indicator": chargeLamp("2 W"),
      "V1 diode": {},
      "K1 relay make": { operate: ["5 V", "7.2 V"], release: ["2.4 V", "4 V"] },
      "E2 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.30",
      "S1.50 M2.50",
      "G1.+ M2.30",
      "M2.31 G1.-",
      "G3.B+ F2.a",
      "F2.b V1.A",
      "V1.K F1.b",
      "G3.31 G1.-",
      "S1.15 E1.a",
      "E1.b G3.D+",
      "F2.b K1.30",
      "K1.87 F3.b",
      "G2.+ F3.a",
      "G2.- G1.-",
      `${coilFrom} K1.86`,
      "K1.85 G1.-",
      "F3.b E2.a",
      "E2.b G1.-",
    ],
  });
export const heldBySecondBattery = splitCharge("F2.b");
export const fedByExciter = splitCharge("G3.D+");

/** A starter whose solenoid is drawn winding by winding; the pull-in winding returns through the motor. */
const solenoid = (pullInTurns: number) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch push": {},
      "K1 relay": {
        operate: ["5 V", "7.8 V"],
        release: ["1.2 V", "3 V"],
        windings: [
          { between: ["50", "31"], ohms: "1.4 ohm" },
          { between: ["50", "87"], ohms: "0.5 ohm", turns: pullInTurns },
        ],
        contacts: [{ common: "30", make: "87" }],
      },
      "M1 motor starter": { rated: "10 A" },
    },
    wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 K1.50", "K1.31 G1.-", "F1.b K1.30", "K1.87 M1.+", "M1.- G1.-"],
  });
export const windingsCancel = solenoid(1);
export const windingsDoNot = solenoid(0.5);

/** The same with a starter from the shelf. */
export const starterFromTheShelf = sketch({
  parts: { "G1 battery": {}, "F1 protector": {}, "S1 switch push": {}, "M1 starter": smallStarter },
  wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 M1.50", "G1.+ M1.30", "M1.31 G1.-"],
});
