import { sketch } from "@loomproof/netlist";

// K2 lets go 3 ms before the rest contact of K1 could feed its coil. All invented.

type Parts = Readonly<Record<string, Readonly<Record<string, unknown>>>>;
const both = {
  joins: {
    off: [],
    on: [
      ["1", "2"],
      ["1", "3"],
    ],
  },
};

/** @param feed what K2 gives on to the rest contact of K1 */
const restContact = (feed: string, release: string, parts: Parts, wires: readonly string[]) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": both,
      "K1 relay changeover": { operate: "7 V", release: "2 V", operateTime: "3 ms", releaseTime: "5 ms" },
      "K2 relay make": { operate: "7 V", release, operateTime: "3 ms", releaseTime: "2 ms" },
      "E1 lamp filament": {},
      ...parts,
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K1.86",
      "K1.85 G1.-",
      "S1.3 K2.86",
      "K2.85 G1.-",
      `${feed} K2.30`,
      "K2.87 K1.30",
      "K2.87 E1.a",
      "E1.b G1.-",
      ...wires,
    ],
  });

/**
 * A resistor on the way keeps the current small: 12.6 V over 300 and 90 ohm leave 2.9 V on the coil; 12.9 V over 300 and
 * 76 ohm, the coil at -20 °C, are as many amps as 3.09 V at 20 °C.
 */
export const throughResistor = (release: string) =>
  restContact("F1.b", release, { "R1 resistor": { ohms: "300 ohm" } }, ["K1.87a R1.a", "R1.b K2.86"]);

/** K3, on the same switch, stays in through a tell-tale of its own, if that leads to its coil. */
const besideHold = (feed: string, tellTaleTo: string) =>
  restContact(
    feed,
    "2 V",
    {
      "K3 relay make": { operate: ["6 V", "7.2 V"], release: ["1.2 V", "2.4 V"] },
      "V1 diode": {},
      "E3 lamp indicator": { watts: "0.8 W", lowIsMeant: "in series with a coil" },
    },
    ["K1.87a K2.86", "S1.2 V1.A", "V1.K K3.86", "K3.85 G1.-", "F1.b K3.30", "K3.87 E3.a", `E3.b ${tellTaleTo}`],
  );
/** K2 has its feed through K3: what could hold it is there only because K3 is held. */
export const feedHeldAnyway = besideHold("K3.87", "K3.86");
export const feedNotHeld = besideHold("K3.87", "G1.-");
/** K2 has a feed of its own: two things that have nothing to do with each other. */
export const besideAnotherHold = besideHold("F1.b", "K3.86");

/** K3 on the contact of S1 that K2 hangs on (3), or K1 (2): what suppresses its coil lies across that of the other too. */
export const withNeighbour = (contact: "2" | "3", suppression: unknown, ownOfK2: unknown = "none") =>
  restContact(
    "F1.b",
    "2 V",
    {
      "K2 relay make": {
        operate: "7 V",
        release: "2 V",
        operateTime: "3 ms",
        releaseTime: "2 ms",
        suppression: ownOfK2,
      },
      "K3 relay make": { operate: "7 V", release: "2 V", suppression },
      "E3 lamp filament": {},
    },
    ["K1.87a K2.86", `S1.${contact} K3.86`, "K3.85 G1.-", "F1.b K3.30", "K3.87 E3.a", "E3.b G1.-"],
  );

/** The same with something that is no relay across the coil of K2. */
export const withBeside = (what: string, values: Readonly<Record<string, unknown>>, [from, to] = ["a", "b"]) =>
  restContact("F1.b", "2 V", { [`E3 ${what}`]: values }, ["K1.87a K2.86", `S1.3 E3.${from}`, `E3.${to} G1.-`]);

/** One switch pulls K2 in, K1 takes its feed away again, and K3 would give it back: 9 - (5 + 2) = 2 ms too late. */
export const inForAMoment = (operateTimeOfK3: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "K1 relay break": { operateTime: "5 ms", releaseTime: "5 ms" },
      "K2 relay make": { operateTime: "2 ms", releaseTime: "2 ms" },
      "K3 relay make": { operateTime: operateTimeOfK3, releaseTime: "2 ms" },
      "E1 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      ...["K1.86", "K3.86", "K1.30"].map((to) => `S1.2 ${to}`),
      ...["K1", "K2", "K3"].map((k) => `${k}.85 G1.-`),
      "K1.87a K2.86",
      "F1.b K2.30",
      "K2.87 K3.30",
      "K3.87 K2.86",
      "K2.87 E1.a",
      "E1.b G1.-",
    ],
  });
