// Outside check: sneak circuits described in the literature, written down as looms. Node names and load values are our
// own; what must and must not come on is the literature's.

import { analyse } from "@loomproof/analyzer";
import { type Loom, sketch } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";

const found = (loom: Loom) =>
  analyse(loom).findings.filter((f) => ["back-feed", "sneak-path"].includes(f.rule) && f.severity !== "note");

// P. L. Clemens, "Sneak Circuit Analysis", training module, April 2002, example 1 (some cars of the late 1960s); second
// account: J. Becker, "The Sneak Circuit". The hazard feed runs backwards through the brake switch to the radio: with the
// key off, radio and hazard switch on and the brake pressed, the radio plays in time with the flashers.
const parts = {
  "G1 battery": { volts: "12.8 V" },
  "F1 protector": {},
  "S1 switch": { label: "Ignition" },
  "S2 switch": { label: "Radio" },
  "S3 switch push": { label: "Brake" },
  "S4 switch": { label: "Hazard" },
  "S5 switch": { label: "Flasher contact" },
  "E1 heater": { label: "Radio", ohms: "12 ohm", harm: "none" },
  "E2 lamp filament": { label: "Stop lamps", watts: "42 W" },
};
const common = [
  "G1.+ F1.a",
  "F1.b S1.1",
  "S1.2 S2.1",
  "S2.2 E1.a",
  "E1.b G1.-",
  "S3.2 E2.a",
  "E2.b G1.-",
  "F1.b S5.1",
  "S5.2 S4.1",
  "S4.2 E2.a",
];

describe("brake lamps, hazard flasher and radio", () => {
  test("the radio is fed backwards through the brake switch with the ignition off", () => {
    const findings = found(sketch({ parts, wires: [...common, "S1.2 S3.1"] }));
    expect(findings.map((f) => f.id)).toEqual(["back-feed:E1+S3"]);
    const [finding] = findings;
    expect(finding?.states[0]?.inputs).toMatchObject({
      S1: "open",
      S2: "closed",
      S3: "closed",
      S4: "closed",
      S5: "closed",
    });
    expect(finding?.path).toEqual(expect.arrayContaining(["S4.2", "S3.2", "S3.1", "S2.1", "E1.a"]));
  });

  test("the brake switch fed from the battery ends it", () => {
    expect(found(sketch({ parts, wires: [...common, "F1.b S3.1"] }))).toEqual([]);
  });

  test("a diode from the ignition to the brake switch ends it", () => {
    expect(
      found(sketch({ parts: { ...parts, "V1 diode": {} }, wires: [...common, "S1.2 V1.A", "V1.K S3.1"] })),
    ).toEqual([]);
  });
});

// "Understanding Electrical Circuits" (a workshop column, brakeandfrontend.com): with the ground of a two-filament rear
// lamp lost, the stop filament finds a return through the tail filament and the other tail lamp.
const rear = (ground: readonly string[]) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": { label: "Brake" },
      "S2 switch": { label: "Lights" },
      "S3 switch": { label: "Ground joint", joins: { good: [["1", "2"]], bad: [] } },
      "E1 lamp filament": { label: "Stop filament", watts: "21 W" },
      "E2 lamp filament": { label: "Tail filament", watts: "5 W" },
      "E3 lamp filament": { label: "Other tail", watts: "5 W" },
      "X1 splice": {},
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 E1.a",
      "E1.b X1",
      "F1.b S2.1",
      "S2.2 E2.a",
      "E2.b X1",
      "S2.2 E3.a",
      "E3.b G1.-",
      ...ground,
    ],
  });

test("a lost lamp ground: the tail lamps glow when the brake is pressed", () => {
  const lost = found(rear(["X1 S3.1", "S3.2 G1.-"])).map((f) => f.id);
  expect(lost).toContain("sneak-path:E1+E2");
  expect(found(rear(["X1 G1.-", "X1 S3.1", "S3.2 G1.-"]))).toEqual([]);
});
