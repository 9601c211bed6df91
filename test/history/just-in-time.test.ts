import { analyse, play } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { readLoom } from "../cases/score.ts";
import * as inTime from "./just-in-time.ts";

const said = (loom: Loom): readonly string[] =>
  analyse(loom)
    .findings.filter((f) => f.rule === "release-overlap" || f.rule === "self-hold")
    .map((f) => `${f.severity} ${f.strength} ${f.id}${f.under === undefined ? "" : ` under ${f.under}`}`);

describe("a relay that lets go in time", () => {
  test("only cold and with a full battery it would be held: told, and where", () => {
    const loom = inTime.throughResistor("3 V");
    expect(said(loom)).toEqual(["caution possible release-overlap:K1+K2"]);
    expect(analyse(loom).findings.find((f) => f.rule === "release-overlap")?.runs).toEqual(["strong"]);
  });
  test("at no corner: silent", () => expect(said(inTime.throughResistor("3.2 V"))).toEqual([]));
  test("at every corner: certain", () => {
    expect(said(inTime.throughResistor("2 V"))).toEqual(["caution certain release-overlap:K1+K2"]);
  });

  test("another relay holds itself, and only so could this one: one cause, told once", () => {
    expect(said(inTime.feedHeldAnyway)).toEqual(["fault certain self-hold:K3"]);
    expect(said(inTime.feedNotHeld)).toEqual([]);
  });
  test("another relay holds itself, and this one could without it: both are told", () => {
    expect(said(inTime.besideAnotherHold)).toEqual([
      "fault certain self-hold:K3",
      "caution certain release-overlap:K1+K2",
    ]);
  });
});

describe("a relay that one move pulls in and lets go again", () => {
  test("its feed comes back 2 ms after it is out: told", () => {
    expect(said(inTime.inForAMoment("9 ms"))).toEqual(["caution certain release-overlap:K2+K3"]);
    const f = analyse(inTime.inForAMoment("9 ms")).findings.find((x) => x.rule === "release-overlap");
    expect(f?.numbers.find((n) => n.name === "time to spare")?.value).toBeCloseTo(2, 6);
  });
  test("1 ms before: it stays in whenever S1 is closed, which is no memory", () => {
    expect(said(inTime.inForAMoment("6 ms"))).toEqual([]);
  });
  test("30 ms after: no two relays are so far apart", () => expect(said(inTime.inForAMoment("37 ms"))).toEqual([]));
});

describe("something else across the coil, by which the current goes on after the switch has opened", () => {
  const held = "self-hold:K2";
  const inTimeOnly = "release-overlap:K1+K2";
  test.each([
    ["a headlamp", inTime.withBeside("lamp filament", { watts: "21 W" }), held, ["K2"]],
    ["a tell-tale", inTime.withBeside("lamp indicator", { watts: "1.2 W" }), held, ["K2"]],
    ["a heater of 30 ohm", inTime.withBeside("heater", { ohms: "30 ohm" }), held, ["K2"]],
    [
      "a capacitor of 470 uF",
      inTime.withBeside("capacitor electrolytic", { farads: "470 uF" }, ["+", "-"]),
      held,
      ["K2"],
    ],
    [
      "a capacitor of 1 uF, with which it swings",
      inTime.withBeside("capacitor film", { farads: "1 uF" }, ["+", "-"]),
      held,
      ["K2"],
    ],
    ["a resistor of 680 ohm", inTime.withBeside("resistor", { ohms: "680 ohm" }), inTimeOnly, []],
    ["an LED, which lets nothing back", inTime.withBeside("led indicator", {}, ["+", "-"]), inTimeOnly, []],
  ])("%s: proved and played the same", (_, loom, id, relays) => {
    expect(said(loom).map((f) => f.split(" ").at(-1))).toEqual([id]);
    const played = play(loom, "S1=on, 300ms S1=off");
    expect(played.ok && played.timeline.after.in).toEqual(relays);
  });
});

describe("a neighbour on the same two nets", () => {
  const diode = { diode: "85>86" };
  test("its diode lies across the coil too, and can keep it in until the rest contact closes", () => {
    expect(said(inTime.withNeighbour("3", diode))).toEqual(["fault possible self-hold:K2"]);
  });
  test("where the one that it slows is not in the ring, the hold still hangs on times", () => {
    // MR is given 5 ms; K3, of 20 ms, has a diode across both coils. If MR is as slow, PR is never without feed.
    const loom = readLoom("C102F");
    const f = analyse(loom).findings.find((x) => x.id === "self-hold:PR");
    expect(f?.strength).toBe("possible");
    expect(f?.hold?.kind).toBe("caught");
    const bare = {
      ...loom,
      parts: loom.parts.map((p) => (p.id === "K3" ? { ...p, suppression: { resistor: "680 ohm" } } : p)),
    } as Loom;
    expect(said(bare)).toEqual(["caution certain release-overlap:K3+PR"]);
  });
  test.each([
    ["a diode across another coil", inTime.withNeighbour("2", diode)],
    ["a resistor", inTime.withNeighbour("3", { resistor: "680 ohm" })],
    ["nothing", inTime.withNeighbour("3", "none")],
    ["a diode, and one of its own, with which its time was given", inTime.withNeighbour("3", diode, diode)],
  ])("%s: it lets go in time", (_, loom) => {
    // Bare or with a resistor K3 is as quick, and would come along.
    const ids = said(loom).filter((id) => !id.endsWith("K1+K3"));
    expect(ids).toEqual(["caution certain release-overlap:K1+K2"]);
  });
});
