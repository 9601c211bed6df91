import { analyse } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import * as claims from "./claims.ts";
import { heldByClamp, noClamp } from "./holding.ts";

// "Meant to seal in" is a claim. Proved, it is silent; what is not proved is told, and which part of it fails.

const told = (loom: Loom) =>
  analyse(loom)
    .findings.filter((f) => f.rule === "self-hold")
    .map((f) => ({ is: `${f.severity} ${f.strength} ${f.id}`, says: f.text, remedy: f.remedy, cuts: f.cuts }));

const doubted = (loom: Loom): string => {
  const [only, ...more] = told(loom);
  expect(more).toEqual([]);
  // The pump moves, so it is a danger whatever part of the claim fails.
  expect(only?.is).toBe("danger certain self-hold:K1");
  return only?.says ?? "";
};

describe("proved", () => {
  test.each([
    ["start and stop as they are said to be", claims.asMeant],
    ["with nothing said of what sets and clears it", claims.barelyMeant],
    ["cleared by another switch than the stop button", claims.isolatorClears],
    ["two start buttons, both named", claims.bothNamed],
    // 12.5 V x 90 / (1500 + 90) = 0.71 V, below 1.2 V for certain.
    ["a stop button beside 1500 ohm", claims.stopLeaks(1500)],
    ["beside a controller without a clamp", noClamp],
  ])("%s", (_, loom) => expect(told(loom)).toEqual([]));
});

describe("not proved", () => {
  test("the stop button does not cut the feed of the seal contact", () => {
    expect(doubted(claims.stopBypassed)).toContain("but S2 pressed does not let it go for certain");
  });
  test("nothing is said of what clears it, and no switch does", () => {
    expect(doubted(claims.stopBypassedBarely)).toContain("but no single switch lets it go");
  });
  test.each([
    // 12.5 V x 90 / (300 + 90) = 2.9 V, above 2.4 V: every relay stays in.
    [300, "stays"],
    // 12.5 V x 90 / (540 + 90) = 1.8 V, between 1.2 V and 2.4 V: some do.
    [540, "may stay"],
  ])("a stop button beside %s ohm: it %s", (ohms) => {
    expect(doubted(claims.stopLeaks(ohms))).toContain("but S2 pressed does not let it go for certain");
  });
  test("a second start button that is not named", () => {
    expect(doubted(claims.secondStart)).toContain("but S3 closed pulls it in too");
  });
  test("the holding current passes a lamp", () => {
    expect(doubted(claims.throughLamp)).toContain("but its current passes E1");
  });
  test("there is no such contact", () => {
    expect(doubted(claims.noSuchContact)).toContain("but no contact of K1 closes between 30 and 47");
  });
  test("only two relays together stay in", () => {
    const [only, ...more] = told(claims.withSecondRelay);
    expect(more).toEqual([]);
    expect(only?.is).toBe("danger certain self-hold:K1+K2");
    expect(only?.says).toContain("but K2 must stay in with it");
  });
  test("it never stays in at all", () => {
    const [only, ...more] = told(claims.sealsNothing);
    expect(more).toEqual([]);
    expect(only?.is).toBe("fault certain self-hold:K1");
    expect(only?.says).toContain("never stays in by itself");
  });

  test("something else holds it too: the wires that end that, and not the start and stop", () => {
    const [only] = told(heldByClamp);
    expect(only?.says).toContain("but it stays in with that contact open");
    const cuts = [...(only?.cuts?.harmless ?? []), ...(only?.cuts?.breaking ?? [])];
    const seal = heldByClamp.wires.filter((w) => /K1\.4[07]/.test(`${w.from} ${w.to}`)).map((w) => w.id);
    expect(cuts.flatMap((c) => c.wires).filter((w) => seal.includes(w))).toEqual([]);
    // Two ends of the tell-tale. With either wire really gone the claim is proved.
    const gentle = cuts.filter((c) => !c.stops.includes("M1"));
    expect(gentle.length).toBe(2);
    for (const { wires } of gentle)
      expect(told({ ...heldByClamp, wires: heldByClamp.wires.filter((w) => !wires.includes(w.id)) })).toEqual([]);
  });
});
