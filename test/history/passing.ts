import { sketch } from "@loomproof/netlist";

// Looms in which something happens only while relays move. All invented.

const times = { operateTime: "7 ms", releaseTime: "30 ms" };
const fused = { "G1 battery": {}, "F1 protector": {}, "F2 protector": {} };

const leftRight = {
  positions: ["left", "stop", "right"],
  joins: { left: [["1", "2"]], stop: [], right: [["1", "3"]] },
};

/** A winch turned either way by four make relays: two give feed, two give ground. */
export const fourMakeRelays = sketch({
  parts: {
    ...fused,
    "S1 switch": leftRight,
    "K1 relay make": times,
    "K2 relay make": times,
    "K3 relay make": times,
    "K4 relay make": times,
    "M1 motor": {},
  },
  wires: [
    "G1.+ F1.a",
    "G1.+ F2.a",
    "F2.b S1.1",
    ...["K1", "K2"].flatMap((k) => [`S1.2 ${k}.86`, `${k}.85 G1.-`]),
    ...["K3", "K4"].flatMap((k) => [`S1.3 ${k}.86`, `${k}.85 G1.-`]),
    "F1.b K1.30",
    "K1.87 M1.+",
    "M1.- K2.30",
    "K2.87 G1.-",
    "F1.b K3.30",
    "K3.87 M1.-",
    "M1.+ K4.30",
    "K4.87 G1.-",
  ],
});

/** The same winch on two changeover relays that both lie on ground at rest. */
export const twoChangeoverRelays = sketch({
  parts: {
    ...fused,
    "S1 switch": leftRight,
    "K1 relay changeover": times,
    "K2 relay changeover": times,
    "M1 motor": {},
  },
  wires: [
    "G1.+ F1.a",
    "G1.+ F2.a",
    "F2.b S1.1",
    "S1.2 K1.86",
    "K1.85 G1.-",
    "S1.3 K2.86",
    "K2.85 G1.-",
    ...["K1", "K2"].flatMap((k) => [`F1.b ${k}.87`, `G1.- ${k}.87a`]),
    "K1.30 M1.+",
    "K2.30 M1.-",
  ],
});

const twoBatteries = {
  ...fused,
  "G2 battery": {},
  "F3 protector": {},
  "E1 lamp filament": {},
};
const feeds = ["G1.+ F1.a", "G2.+ F3.a", "G2.- G1.-", "E1.b G1.-", "G1.+ F2.a", "F2.b S1.1"];

/** A work lamp on either of two batteries, each through a relay of its own. */
export const eitherBattery = sketch({
  parts: { ...twoBatteries, "S1 switch": leftRight, "K1 relay make": times, "K2 relay make": times },
  wires: [
    ...feeds,
    "S1.2 K1.86",
    "K1.85 G1.-",
    "S1.3 K2.86",
    "K2.85 G1.-",
    "F1.b K1.30",
    "K1.87 E1.a",
    "F3.b K2.30",
    "K2.87 E1.a",
  ],
});

/** The same lamp through one changeover relay. */
export const oneOrTheOther = sketch({
  parts: { ...twoBatteries, "S1 switch": {}, "K1 relay changeover": times },
  wires: [...feeds, "S1.2 K1.86", "K1.85 G1.-", "F1.b K1.87", "F3.b K1.87a", "K1.30 E1.a"],
});

/** K2 gets its feed from K1, and takes K1's feed away. */
const buzzing = (firstCoil: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "K1 relay make": {},
      "K2 relay changeover": {},
      "E1 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K2.30",
      `${firstCoil} K1.86`,
      "K1.85 G1.-",
      "S1.2 K1.30",
      "K1.87 K2.86",
      "K2.85 G1.-",
      "K2.87 E1.a",
      "E1.b G1.-",
    ],
  });
export const buzzer = buzzing("K2.87a");
export const noBuzzer = buzzing("S1.2");

/** K1 takes its own feed away, until the slow relay K3 gives it another. */
const rattling = (slowMs: number, firstCoil: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "K1 relay changeover": {},
      "K3 relay make": { operateTime: `${slowMs} ms` },
      "E1 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K1.30",
      `${firstCoil} K1.86`,
      "K1.85 G1.-",
      "K1.87 E1.a",
      "E1.b G1.-",
      "S1.2 K3.86",
      "K3.85 G1.-",
      "S1.2 K3.30",
      "K3.87 K1.86",
    ],
  });
export const rattler = rattling(60, "K1.87a");
export const noRattler = rattling(60, "S1.2");
/** The other relay is in before K1 can be: nothing has begun to rattle. */
export const tooEarlyToRattle = rattling(2, "K1.87a");

/**
 * S2 pulls K2 in through the rest contact of K1; once K1 is in, its make contact feeds K2 through K2's own. K1 takes 6 ms
 * either way, `transit` of it in the air. An LED for a lamp: a filament across the coil of K2 would slow it.
 */
const carrying = (transit: string | readonly [string, string], k2Release: string, isFed = true) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "S2 switch push": {},
      "K1 relay changeover": { operateTime: "6 ms", releaseTime: "6 ms", transit },
      "K2 relay make": { operateTime: "3 ms", releaseTime: k2Release },
      "E1 led indicator": {},
      ...(isFed ? {} : { "E2 lamp filament": {} }),
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K1.86",
      "K1.85 G1.-",
      "F1.b K1.30",
      "K1.87a S2.1",
      "S2.2 K2.86",
      "K2.85 G1.-",
      ...(isFed ? ["K1.87 K2.30", "K2.87 K2.86"] : ["K1.87 E2.a", "E2.b G1.-", "F1.b K2.30"]),
      "K2.87 E1.+",
      "E1.- G1.-",
    ],
  });
export const carried = (transit: string | readonly [string, string], k2Release: string) => carrying(transit, k2Release);
/** Each contact lights a lamp of its own. */
export const carriedNowhere = carrying("2 ms", "8 ms", false);

/** K1 pulls in through its own rest contact, and is to stay in through its own make contact. */
const ownContacts = (releaseTime: string, transit: string, coil: readonly string[]) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "K1 relay changeover": { releaseTime, transit },
    },
    wires: ["G1.+ F1.a", "F1.b S1.1", "S1.2 K1.30", "K1.85 G1.-", ...coil],
  });
const BOTH_SIDES = ["K1.87a K1.86", "K1.87 K1.86"];
export const fedByItself = (releaseTime: string, transit: string) => ownContacts(releaseTime, transit, BOTH_SIDES);
export const fedAhead = ownContacts("3 ms", "2 ms", ["S1.2 K1.86", ...BOTH_SIDES]);

/**
 * K3 has feed only while K2 is in and K1 is out. With the key on both are in, K1 first; K1 lets go 1 to 2 ms after the
 * key is off, and takes 3 to 4 ms to be in again, in which K3 pulls in and stays.
 */
export const flicked = (releaseOfK2: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 key-switch": { joins: { off: [], run: [["30", "15"]] } },
      "K1 relay changeover": { operateTime: ["3 ms", "4 ms"], releaseTime: ["1 ms", "2 ms"] },
      "K2 relay make": { operateTime: "8 ms", releaseTime: releaseOfK2 },
      "K3 relay make": { operateTime: "2 ms", releaseTime: "5 ms" },
      "E1 lamp filament": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.30",
      ...["K1.86", "K2.86", "K2.30", "K3.30"].map((to) => `S1.15 ${to}`),
      ...["K1", "K2", "K3"].map((k) => `${k}.85 G1.-`),
      "K2.87 K1.30",
      "K1.87a K3.86",
      "K3.87 K3.86",
      "K3.87 E1.a",
      "E1.b G1.-",
    ],
  });
