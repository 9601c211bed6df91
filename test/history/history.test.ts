import { analyse, type Finding, play, type Report } from "@loomproof/analyzer";
import type { Loom } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import * as holding from "./holding.ts";
import * as passing from "./passing.ts";
import * as sources from "./sources.ts";

// Whole small looms whose verdict hangs on what happened before: each faulty one, and beside it the twin that is silent.

/** Every finding that stands by itself, as "severity strength id". Fuses are another matter: the looms have few. */
const verdicts = ({ findings }: Report): readonly string[] =>
  findings
    .filter((f) => f.under === undefined && f.rule !== "unfused")
    .map((f) => `${f.severity} ${f.strength} ${f.id}`);
const said = (loom: Loom): readonly string[] => verdicts(analyse(loom));

function finding(loom: Loom, id: string): Finding {
  const found = analyse(loom).findings.find((f) => f.id === id);
  if (found === undefined) throw new Error(`${id} is not found`);
  return found;
}

const number = (f: Finding, name: string): number => f.numbers.find((n) => n.name === name)?.value ?? Number.NaN;

describe("relays that turn a motor either way", () => {
  const loom = passing.fourMakeRelays;

  test("four make relays short the bridge in passing", () => {
    expect(said(loom)).toEqual(["danger certain release-overlap:K1+K4", "danger certain release-overlap:K2+K3"]);
    // Straight from left to right: K1 lets go 30 ms after its feed is gone, K4 is in 7 ms after it has feed. 30 - 7 = 23.
    expect(number(finding(loom, "release-overlap:K1+K4"), "longest time together")).toBeCloseTo(23, 6);
    expect(number(finding(loom, "release-overlap:K1+K4"), "surely together for")).toBeCloseTo(23, 6);
  });
  test("the story says when the hand turns straight on, and played so they meet: 30 - (15 + 7) = 8 ms", () => {
    const { moves } = finding(loom, "release-overlap:K1+K4");
    // Any time until K1 has let go.
    expect(moves.at(-1)?.straightOn).toEqual({ input: "S1", position: "right", least: 0, most: 30 });
    const played = play(loom, "S1=stop, +15ms S1=right");
    const ms = (says: string) => played.ok && played.timeline.events.find((e) => e.says === says)?.ms;
    expect(Number(ms("K1 lets go")) - Number(ms("K4 pulls in"))).toBeCloseTo(8, 0);
  });

  test("two changeover relays cannot", () => expect(said(passing.twoChangeoverRelays)).toEqual([]));
});

describe("a lamp on either of two batteries", () => {
  test("two relays join the batteries while they change over, for 30 - 7 = 23 ms", () => {
    expect(said(passing.eitherBattery)).toEqual([
      "caution certain release-overlap:K1+K2",
      "note certain joined-feeds:K1.87+K2.87",
    ]);
    const f = finding(passing.eitherBattery, "release-overlap:K1+K2");
    expect(number(f, "longest time together")).toBeCloseTo(23, 6);
  });

  test("one changeover relay cannot", () => expect(said(passing.oneOrTheOther)).toEqual([]));
});

describe("relays that come to no rest, or late", () => {
  test("K1 feeds K2, K2 takes the feed of K1 away: they buzz", () => {
    expect(said(passing.buzzer)).toEqual(["fault certain chatter:K1+K2"]);
    const f = finding(passing.buzzer, "chatter:K1+K2");
    expect(f.text).toMatch(/^With S1 closed/);
    // That the lamp never comes on to stay is no news of its own.
    expect(f.consequences).toEqual(["unreachable:E1"]);
  });
  test("K1 fed ahead of K2: they do not", () => expect(said(passing.noBuzzer)).toEqual([]));

  test("K1 rattles until a relay of 60 ms gives it another feed", () => {
    // In again no earlier than 3 + 1.5 + 3 ms after the switch, which is less than 60.
    expect(said(passing.rattler)).toEqual(["caution possible chatter:K1"]);
  });
  test("fed ahead of its own contact it does not", () => expect(said(passing.noRattler)).toEqual([]));
  test("nor when the other relay is in after 2 ms, before K1 can be in after 3", () => {
    expect(said(passing.tooEarlyToRattle)).toEqual([]);
  });
});

describe("a changeover contact in the air", () => {
  // K2 loses its feed when K1's rest contact opens, and has it back 2 ms later.
  test("K2 lets go in 8 ms: it is carried over, and held", () => {
    expect(said(passing.carried("2 ms", "8 ms"))).toEqual(["note certain self-hold:K2"]);
  });
  test("in 1 ms: it is out 1 ms before the make contact closes, and that is told", () => {
    const loom = passing.carried("2 ms", "1 ms");
    expect(said(loom)).toEqual(["caution certain release-overlap:K1+K2"]);
    const f = finding(loom, "release-overlap:K1+K2");
    expect(number(f, "time to spare")).toBeCloseTo(1, 6);
    expect(number(f, "at the most")).toBeCloseTo(1, 6);
    expect(f.text).toMatch(/^K1's make contact closes that much later/);
  });
  test("in 1 ms, but the contact is in the air for 0.5 to 3 ms: it is held or not, and each is told", () => {
    const f = finding(passing.carried(["0.5 ms", "3 ms"], "1 ms"), "self-hold:K2");
    expect(f.severity).toBe("note");
  });
  test("in 1 ms, were the contact never in the air: held", () => {
    expect(said(passing.carried("0 ms", "1 ms"))).toEqual(["note certain self-hold:K2"]);
  });
  test("each contact lights a lamp of its own: nothing to hold", () =>
    expect(said(passing.carriedNowhere)).toEqual([]));

  test("K1 fed through both its contacts has let go before the other closes: it buzzes", () => {
    // It leaves 3 - 1.5 = 1.5 ms after its feed has gone: in the air for half of its time at most, and 2 ms are asked.
    expect(said(passing.fedByItself("3 ms", "2 ms"))).toEqual(["fault certain chatter:K1"]);
  });
  test("it leaves 8 - 2 = 6 ms after, and has its feed back in 2: it stays in", () => {
    expect(said(passing.fedByItself("8 ms", "2 ms"))).toEqual([]);
  });
  test("fed ahead of its contacts it cannot buzz", () => expect(said(passing.fedAhead)).toEqual([]));
});

describe("a key turned off and on again before relays have let go", () => {
  test("K3 pulls in meanwhile and stays in: told, with the flick among the moves, and as no start and stop", () => {
    expect(said(passing.flicked("15 ms"))).toEqual(["fault possible self-hold:K3"]);
    const { moves } = finding(passing.flicked("15 ms"), "self-hold:K3");
    expect(moves.at(-1)?.set).toEqual({ S1: "off" });
    // After K1 has let go, before K2 has.
    expect(moves.at(-1)?.straightOn).toEqual({ input: "S1", position: "run", least: 1, most: 15 });
    expect(moves.at(-1)?.then).toEqual(["K1 lets go", "S1 is turned straight on to run", "K3 pulls in", "K1 pulls in"]);
  });
  test.each([
    ["15 ms", "303 ms", ["K1", "K2", "K3"]],
    ["15 ms", "360 ms", ["K1", "K2"]],
    ["0.5 ms", "303 ms", ["K1", "K2"]],
  ])("played: K2 takes %s, the key is off at 300 ms and on again at %s: %j are in", (releaseOfK2, back, relays) => {
    const played = play(passing.flicked(releaseOfK2), `S1=run, 300ms S1=off, ${back} S1=run`);
    expect(played.ok && played.timeline.after.in).toEqual(relays);
  });
  test("K2 lets go before K1 can: K3 never has feed", () => {
    expect(said(passing.flicked("0.5 ms"))).toEqual(["fault certain unreachable:E1", "fault certain unreachable:K3"]);
  });
});

describe("a pump with a start and a stop button", () => {
  test("undeclared it is a note", () => expect(said(holding.undeclared)).toEqual(["note certain self-hold:K1"]));
  test("declared, and proved, it is silent", () => expect(said(holding.declared)).toEqual([]));

  test("declared, but a controller's clamp holds it as well: that is told", () => {
    const f = finding(holding.heldByClamp, "self-hold:K1");
    expect(`${f.severity} ${f.strength}`).toBe("danger certain");
    // The stop button is pressed, K1 is still in.
    expect(f.states[0]?.inputs).toMatchObject({ S2: "pressed" });
    expect(f.states[0]?.in).toEqual(["K1"]);
  });
  test("without the clamp the claim is proved again", () => expect(said(holding.noClamp)).toEqual([]));
});

describe("what runs on for a while on purpose", () => {
  const within = (loom: Loom, load: string, seconds: number) =>
    analyse({
      ...loom,
      intents: [{ id: "stops", load, offWithin: `${seconds} s`, after: { S1: "off" } }],
    }).intents.map((i) => i.verdict);

  test("a main relay that its controller holds for 8 s: silent", () => {
    expect(said(holding.holdUp)).toEqual([]);
    expect(within(holding.holdUp, "M1", 7)).toEqual(["not met"]);
    expect(within(holding.holdUp, "M1", 9)).toEqual(["met"]);
  });

  test("a fan that a timer holds for 120 s: silent", () => {
    expect(said(holding.afterRun)).toEqual([]);
    expect(within(holding.afterRun, "M1", 119)).toEqual(["not met"]);
    expect(within(holding.afterRun, "M1", 121)).toEqual(["met"]);
  });
});

describe("an engine kept alive through its charge lamp", () => {
  test("key off, the fuel valve stays on from D+, and so the engine runs on", () => {
    const loom = sources.keptByChargeLamp;
    expect(said(loom)).toEqual(["danger certain runs-on:G2"]);
    const f = finding(loom, "runs-on:G2");
    expect(f.where).toEqual(expect.arrayContaining(["X1", "Y1", "E1", "G2"]));
    expect(f.states[0]?.inputs).toMatchObject({ S1: "off", X1: "running" });
    // 48 ohm of the valve below a lamp of 5 W at 14.2 V. With 10.3 V on the valve 0.215 A flow; at 3.9 V the filament
    // takes 0.417 A x (3.9 / 12)^0.55 = 0.225 A. So it lies near there.
    expect(number(f, "volts across Y1")).toBeCloseTo(10.3, 0);
    // No wire ends it and nothing else: that of the lamp is the gentlest, and puts the lamp out.
    expect(f.cuts?.harmless).toEqual([]);
    expect(f.cuts?.breaking.map((c) => c.stops)).toContainEqual(["E1"]);
    expect(f.consequences).toEqual(["sneak-path:E1+Y1"]);
  });
  test("a tell-tale beside the valve glows by the same current: told once", () => {
    const ids = said(sources.keptWithTellTale);
    expect(ids).toEqual(["danger certain runs-on:G2"]);
    expect(finding(sources.keptWithTellTale, "runs-on:G2").consequences).toContain("sneak-path:E1+E3");
  });
  test("a heater beside the valve leaves it next to nothing: the engine stops", () => {
    expect(said(sources.chargeLampLoaded)).toEqual([]);
  });
  test("a diode before the lamp ends it", () => expect(said(sources.chargeLampBehindDiode)).toEqual([]));

  test("through a relay it is held all the more: its coil takes less", () => {
    expect(said(sources.relayKeptByChargeLamp)).toEqual(["danger certain self-hold:K1"]);
    const f = finding(sources.relayKeptByChargeLamp, "self-hold:K1");
    expect(f.hold?.kind).toBe("leak");
    expect(f.text).toMatch(/and X1 runs on\.$/);
    // 90 ohm: with 12.3 V 0.137 A flow; at 1.9 V the filament takes 0.417 A x (1.9 / 12)^0.55 = 0.151 A.
    expect(number(f, "coil of K1")).toBeCloseTo(12.3, 0);
  });
  test("and the diode ends that too", () => expect(said(sources.relayBesideDiode)).toEqual([]));
});

describe("a fan in the wind", () => {
  test("it wakes the power module through its body diode, with the main switch off", () => {
    const loom = sources.windWakes;
    // While its output is on, that conducts both ways too.
    expect(said(loom)).toEqual(["fault certain back-feed:A1", "fault certain sneak-path:A1+M1"]);
    const f = finding(loom, "back-feed:A1");
    expect(f.states[0]?.inputs).toMatchObject({ S1: "open", wind: "strong" });
    // 8 V less a diode at 50 mA, 0.6 V + 2 ohm x 0.05 A = 0.70 V, less 0.05 A x 0.6 ohm = 0.03 V: 7.27 V, and it wakes at 6.
    expect(number(f, "volts across A1")).toBeCloseTo(7.27, 1);
  });
  test("a diode before the fan: it sleeps on", () => expect(said(sources.windBlocked)).toEqual([]));
});

describe("a second battery charged through a relay", () => {
  test("its coil behind its own contact: the second battery holds it once the engine is off", () => {
    const loom = sources.heldBySecondBattery;
    expect(said(loom)).toEqual(["fault certain self-hold:K1"]);
    const f = finding(loom, "self-hold:K1");
    expect(f.hold?.kind).toBe("standing");
    // Nothing but wires, a fuse and a contact between 12.6 V and 90 ohm: 0.14 A drop less than 0.1 V in 0.1 ohm.
    expect(number(f, "coil of K1")).toBeCloseTo(12.5, 1);
  });
  test("its coil on D+ of the alternator: it lets go", () => expect(said(sources.fedByExciter)).toEqual([]));
});

describe("a starter solenoid with two windings", () => {
  test("equal turns cancel when the button is let go", () => {
    expect(said(sources.windingsCancel)).toEqual([]);
    expect(said(sources.starterFromTheShelf)).toEqual([]);
  });

  test("half the turns on the pull-in winding: it stays in", () => {
    const loom = sources.windingsDoNot;
    expect(said(loom)).toEqual(["danger certain self-hold:K1"]);
    // One current, backwards through 0.5 ohm x 1/2 turn and on through 1.4 ohm x 1 turn: half of it counts. 12 V (the
    // motor takes 10 A through 70 mohm) over 1.98 ohm with its wires is 6.1 A, half is 3.05 A, or 4.3 V of 1.4 ohm. It
    // lets go at 3 V at the latest. Volts alone, 8.6 V, would hold it with equal turns too.
    expect(number(finding(loom, "self-hold:K1"), "coil of K1")).toBeCloseTo(4.3, 1);
  });
});

describe("a latching relay as battery switch", () => {
  test.each(["out", "in"] as const)("delivered %s, the hold behind it is the same", (delivered) => {
    expect(said(holding.latchingWithHold(delivered))).toEqual(["danger certain self-hold:K1"]);
    expect(said(holding.latchingWithoutHold(delivered))).toEqual([]);
  });
});

describe("caught and standing", () => {
  test.each([
    [5, 9],
    [5, 6.5],
    [2, 20],
  ])("K1 closes its rest contact after %s ms, K2 would open after %s ms: caught", (k1, k2) => {
    const loom = holding.caughtHold(k1, k2);
    expect(said(loom)).toEqual(["fault certain self-hold:K2", "note certain joined-feeds:K1.87a+S1.3"]);
    const { hold } = finding(loom, "self-hold:K2");
    expect(hold?.kind).toBe("caught");
    // Both lose their feed at once, so the margin is the difference of the release times.
    expect(hold?.margin?.least).toBeCloseTo(k2 - k1, 6);
    expect(hold?.margin?.most).toBeCloseTo(k2 - k1, 6);
  });

  test("K2 open after 2 ms, 3 ms before the rest contact closes: no hold, but told as near", () => {
    const loom = holding.caughtHold(5, 2);
    expect(said(loom)).toEqual(["caution certain release-overlap:K1+K2", "note certain joined-feeds:K1.87a+S1.3"]);
    expect(number(finding(loom, "release-overlap:K1+K2"), "time to spare")).toBeCloseTo(3, 6);
  });

  test("the contact in the air before it catches K2: as long a margin, for a release ends when the rest contact closes", () => {
    const { hold } = finding(holding.caughtOnTheWay(5, 9), "self-hold:K2");
    expect(hold?.kind).toBe("caught");
    expect([hold?.margin?.least, hold?.margin?.most]).toEqual([4, 4]);
    expect(hold?.margin?.says).toBe("K1's rest contact closes 4\u00a0ms before K2 would let go");
  });
  test.each([
    // K2 out while K1 has not even left its make contact, and while K1's contact is in the air: 5 - 0.3 to 5 - 2.5 ms.
    [2, 3],
    [4.8, 0.2],
  ])("K2 out after %s ms, %s ms before it arrives: no hold, but told as near", (k2, spare) => {
    const loom = holding.caughtOnTheWay(5, k2);
    expect(said(loom)).toContain("caution certain release-overlap:K1+K2");
    expect(said(loom).some((s) => s.includes("self-hold"))).toBe(false);
    const f = finding(loom, "release-overlap:K1+K2");
    expect(f.text).toMatch(/^K1's rest contact closes that much later/);
    expect(number(f, "time to spare")).toBeCloseTo(spare, 6);
    expect(number(f, "at the most")).toBeCloseTo(spare, 6);
  });

  test("the rest contact leads to a lamp: nothing to hold", () => expect(said(holding.restContactToLamp)).toEqual([]));

  test.each([1, 20, 100])("a tell-tale holds K1 though it lets go in %s ms: standing", (releaseMs) => {
    const loom = holding.standingHold(releaseMs);
    expect(said(loom)).toEqual(["danger certain self-hold:K1"]);
    const f = finding(loom, "self-hold:K1");
    expect(f.hold?.kind).toBe("standing");
    expect(f.hold?.margin).toBeUndefined();
    // 4.65 V over 90 ohm is 51.7 mA; the lamp has 12.4 - 4.65 = 7.75 V then and takes 66.7 mA x (7.75 / 12)^0.55 = 52 mA.
    expect(number(f, "coil of K1")).toBeCloseTo(4.65, 1);
  });
  test("the tell-tale led to ground: nothing", () => expect(said(holding.tellTaleToGround)).toEqual([]));
});
