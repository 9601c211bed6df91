import { type Loom, sketch } from "@loomproof/netlist";

// Contacts that share a terminal: they select one of several feeds, or give one feed to one of several. All invented.

type Parts = Readonly<Record<string, Readonly<Record<string, unknown>>>>;
const eitherWay = { joins: { one: [["1", "2"]], two: [["2", "3"]] } };
const lamp = "lamp filament";

/** A lamp E1, and feeds behind fuses: F1 straight, F2 through a switch S2. */
const twoFeeds = (parts: Parts, wires: readonly string[]): Loom =>
  sketch({
    parts: { "G1 battery": {}, "F1 protector": {}, "F2 protector": {}, "S2 switch": {}, [`E1 ${lamp}`]: {}, ...parts },
    wires: ["G1.+ F1.a", "G1.+ F2.a", "F2.b S2.1", "E1.b G1.-", ...wires],
  });

const selected = ["F1.b S1.1", "S2.2 S1.3", "S1.2 E1.a"];
export const oneBehindSwitch = twoFeeds({ "S1 switch": eitherWay }, selected);
export const equalFeeds = twoFeeds({ "S1 switch": eitherWay, "S3 switch": {} }, [
  "F1.b S3.1",
  "S3.2 S1.1",
  "S2.2 S1.3",
  "S1.2 E1.a",
]);

/** The same with a relay; `rest` is the feed at its rest contact. */
const byRelay = (rest: string, make: string) =>
  twoFeeds({ "K1 relay changeover": {}, "S9 switch": {} }, [
    "F1.b S9.1",
    "S9.2 K1.86",
    "K1.85 G1.-",
    `${rest} K1.87a`,
    `${make} K1.87`,
    "K1.30 E1.a",
  ]);
export const relaySelects = [byRelay("F1.b", "S2.2"), byRelay("S2.2", "F1.b")] as const;

export const threeFeeds = twoFeeds(
  { "S1 switch": { joins: { a: [["1", "2"]], b: [["3", "2"]], c: [["4", "2"]] } }, "S3 switch": {}, "S4 switch": {} },
  [...selected, "F1.b S3.1", "S3.2 S4.1", "S4.2 S1.4"],
);

/** The lamp is given by S4 a feed that S1 has selected, or one of its own. */
export const selectorsInRow = twoFeeds({ "S1 switch": eitherWay, "S4 switch": eitherWay, "S3 switch": {} }, [
  "F1.b S1.1",
  "S2.2 S1.3",
  "S1.2 S4.1",
  "F1.b S3.1",
  "S3.2 S4.3",
  "S4.2 E1.a",
]);

/** The lamp has a switch of its own beside the selector, and each feed a tell-tale: every net has a feed and a load. */
export const selectorBypassed = twoFeeds(
  { "S1 switch": eitherWay, "S3 switch": {}, [`E2 ${lamp}`]: {}, [`E3 ${lamp}`]: {} },
  [...selected, "F1.b S3.1", "S3.2 E1.a", "F1.b E2.a", "E2.b G1.-", "S2.2 E3.a", "E3.b G1.-"],
);

/** One lamp from two places, and from a third by a switch of its own. */
export const lampFromThreePlaces = twoFeeds({ "S1 switch": eitherWay, "S4 switch": eitherWay }, [
  "F1.b S1.2",
  "S1.1 S4.1",
  "S1.3 S4.3",
  "S4.2 E1.a",
  "S2.2 E1.a",
]);

/** On the ground side: the lamp's return goes straight to ground, or through a switch. */
export const returnSelected = sketch({
  parts: {
    "G1 battery": {},
    "F1 protector": {},
    "S1 switch": eitherWay,
    "S2 switch": {},
    [`E1 ${lamp}`]: {},
  },
  wires: ["G1.+ F1.a", "F1.b E1.a", "E1.b S1.2", "S1.1 G1.-", "S1.3 S2.1", "S2.2 G1.-"],
});

/** A selector with a position that joins both feeds, each with a lamp of its own. */
export const joinsBoth = (positions: "both" | "either") =>
  twoFeeds(
    {
      "S1 switch": {
        joins: {
          one: [["1", "2"]],
          ...(positions === "both"
            ? {
                both: [
                  ["1", "2"],
                  ["2", "3"],
                ],
              }
            : {}),
          two: [["2", "3"]],
        },
      },
      "S5 switch": {},
      [`E2 ${lamp}`]: {},
      [`E3 ${lamp}`]: {},
    },
    ["F1.b S5.1", "S5.2 S1.1", "S2.2 S1.3", "S1.2 E1.a", "S5.2 E2.a", "E2.b G1.-", "S2.2 E3.a", "E3.b G1.-"],
  );

/**
 * S5 feeds the lamp E2 and, through S1, either E1 or E3. E1 has a switch S2 of its own, or behind a diode in what comes
 * from S1.
 */
export const givesOn = (toE1: "wire" | "diode") =>
  twoFeeds(
    {
      "S1 switch": eitherWay,
      "S5 switch": {},
      [`E2 ${lamp}`]: {},
      [`E3 ${lamp}`]: {},
      ...(toE1 === "diode" ? { "V1 diode": {} } : {}),
    },
    [
      "F1.b S5.1",
      "S5.2 S1.2",
      "S5.2 E2.a",
      "E2.b G1.-",
      "S1.3 E3.a",
      "E3.b G1.-",
      "S2.2 E1.a",
      ...(toE1 === "diode" ? ["S1.1 V1.A", "V1.K E1.a"] : ["S1.1 E1.a"]),
    ],
  );
