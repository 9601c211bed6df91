import { type Loom, sketch } from "@loomproof/netlist";

// A pump with a start button S1 and a stop button S2, drawn to seal itself in through 40 and 47, and what can be wrong
// with saying so. All invented.

type Claim = Loom["meant"][number];
const claim: Claim = {
  id: "m1",
  "seal-in": "K1",
  through: ["40", "47"],
  set: [{ S1: "closed" }],
  clear: [{ S2: "pressed" }],
};

interface Drawn {
  readonly parts?: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  /** Where the seal contact gets its feed, and how it gets to the coil. */
  readonly feed?: string;
  readonly toCoil?: readonly string[];
  readonly wires?: readonly string[];
  readonly claim?: Partial<Claim>;
}

function pump({ parts = {}, feed = "S2.2", toCoil = ["K1.47 K1.86"], wires = [], claim: other = {} }: Drawn): Loom {
  const loom = sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch push": {},
      "S2 switch push-break": {},
      "K1 relay": {
        operate: ["5 V", "7.2 V"],
        release: ["1.2 V", "2.4 V"],
        contacts: [
          { common: "30", make: "87" },
          { common: "40", make: "47" },
        ],
      },
      "M1 motor pump": {},
      ...parts,
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S2.1",
      "S2.2 S1.1",
      "S1.2 K1.86",
      "K1.85 G1.-",
      "F1.b K1.30",
      "K1.87 M1.+",
      "M1.- G1.-",
      `${feed} K1.40`,
      ...toCoil,
      ...wires,
    ],
  });
  return { ...loom, meant: [{ ...claim, ...other }] };
}

export const asMeant = pump({});
/** With nothing said of what sets and clears it. */
export const barelyMeant = pump({ claim: { set: undefined, clear: undefined } });

/** The stop button lies before the start button only. */
export const stopBypassed = pump({ feed: "F1.b" });
export const stopBypassedBarely = pump({ feed: "F1.b", claim: { set: undefined, clear: undefined } });
/** An isolator before everything stops it all the same. */
export const isolatorClears = pump({
  parts: { "S9 switch": {}, "F9 protector": {} },
  feed: "S9.2",
  wires: ["F1.b F9.a", "F9.b S9.1"],
  claim: { clear: [{ S9: "open" }] },
});

/** Beside the stop button, of so many ohms, lies a tell-tale that it is pressed. */
export const stopLeaks = (ohms: number) =>
  pump({ parts: { "R1 resistor": { ohms: `${ohms} ohm` } }, wires: ["S2.1 R1.a", "R1.b S2.2"] });

/** A second start button that the claim does not name, and that it does. */
const second = { parts: { "S3 switch push": {} }, wires: ["S2.2 S3.1", "S3.2 K1.86"] };
export const secondStart = pump(second);
export const bothNamed = pump({ ...second, claim: { set: [{ S1: "closed" }, { S3: "closed" }] } });

/** The holding current passes a lamp. */
export const throughLamp = pump({
  parts: { "E1 lamp indicator": { watts: "2 W", lowIsMeant: "in series with a coil" } },
  toCoil: ["K1.47 E1.a", "E1.b K1.86"],
});

/** K1 holds K2, and K2 holds K1. */
export const withSecondRelay = pump({
  parts: { "K2 relay make": { operate: ["5 V", "7.2 V"], release: ["1.2 V", "2.4 V"] } },
  toCoil: ["K1.47 K2.86", "K2.85 G1.-", "S2.2 K2.30", "K2.87 K1.86"],
});

export const noSuchContact = pump({ claim: { through: ["30", "47"] } });
/** The seal contact lights a lamp and feeds no coil. */
export const sealsNothing = pump({
  parts: { "E1 lamp indicator": {} },
  toCoil: ["K1.47 E1.a", "E1.b G1.-"],
});
