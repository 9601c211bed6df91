import { type Loom, sketch } from "@loomproof/netlist";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compile } from "../circuit/compile.ts";
import { USUAL } from "../circuit/patch.ts";
import { anyLoom } from "../testing/random-loom.ts";
import { explore, movesFrom } from "./explore.ts";
import { follow, type Moment } from "./follow.ts";
import { holdsIn } from "./hold.ts";
import { machineOf } from "./machine.ts";
import { oneRest, settle, settleToRest } from "./settle.ts";
import { coldState, withStand } from "./state.ts";

const machine = (loom: Loom) => machineOf(compile(loom), USUAL);

/** Two relays on one switch; the second's coil hangs on a rest contact of the first. */
const twoRelays = (first: string, second: string) =>
  sketch({
    parts: {
      "G1 battery": {},
      "F1 protector": {},
      "S1 switch": {},
      "K1 relay break": { operate: "7 V", operateTime: first },
      "K2 relay make": { operate: "7 V", operateTime: second },
    },
    wires: [
      "G1.+ F1.a",
      "F1.b S1.1",
      "S1.2 K1.86",
      "K1.85 G1.-",
      "S1.2 K1.30",
      "K1.87a K2.86",
      "K2.85 G1.-",
      "F1.b K2.30",
      "K2.87 G1.-",
    ],
  });

/** Relays on one switch, each with its coil behind a rest contact of every other. */
const shutOut = (times: readonly string[]) => {
  const ids = times.map((_, i) => `K${i + 1}`);
  const others = (id: string) => ids.filter((o) => o !== id);
  return sketch({
    parts: {
      "G1 battery": {},
      "S1 switch": {},
      ...Object.fromEntries(
        ids.map((id, i) => [
          `${id} relay break`,
          { operateTime: times[i], contacts: others(id).map((o) => ({ common: `30${o}`, break: `87${o}` })) },
        ]),
      ),
    },
    wires: [
      "G1.+ S1.1",
      ...ids.flatMap((id) => [
        ...others(id).map((o, k, all) => `${k === 0 ? "S1.2" : `${all[k - 1]}.87${id}`} ${o}.30${id}`),
        `${others(id).at(-1)}.87${id} ${id}.86`,
        `${id}.85 G1.-`,
      ]),
    ],
  });
};

const orders = (loom: Loom): readonly string[] => {
  const m = machine(loom);
  const { landings } = settle(m, withStand(coldState(m.circuit), 0, 1));
  return landings
    .map((l) =>
      l.events
        .map((e) => (e.kind === "latch" ? `${m.circuit.latches[e.latch]?.id} ${e.on ? "in" : "out"}` : ""))
        .join(", "),
    )
    .sort();
};

describe("settle", () => {
  test("the faster relay lands first; what it opens is recalled", () => {
    expect(orders(twoRelays("3 ms", "10 ms"))).toEqual(["K1 in"]);
  });

  test("the slower one lands after the other has, and takes its feed away", () => {
    expect(orders(twoRelays("10 ms", "3 ms"))).toEqual(["K2 in, K1 in, K2 out"]);
  });

  test("at the same moment both orders are followed, and a move about to land is recalled or goes through", () => {
    expect(orders(twoRelays("5 ms", "5 ms"))).toEqual(["K1 in", "K2 in, K1 in, K2 out"]);
  });

  /** All that can be in at one moment of some order. */
  const together = (loom: Loom): readonly string[] => {
    const m = machine(loom);
    const { moments } = follow(m, withStand(coldState(m.circuit), 0, 1));
    const inAt = ({ flight }: Moment) => m.circuit.latches.filter((_, i) => flight.state.latches[i] === 1);
    return [
      ...new Set(
        moments.map((at) =>
          inAt(at)
            .map((l) => l.id)
            .join(" "),
        ),
      ),
    ].sort();
  };

  test.each([
    // The first to land robs both others: for 0.3 ms they may still land, either, both or none.
    [
      ["5 ms", "5.1 ms", "5.3 ms"],
      ["", "K1", "K1 K2", "K1 K2 K3", "K1 K3", "K2", "K2 K3", "K3"],
    ],
    // K3 has 0.4 ms to go then.
    [
      ["5 ms", "5.1 ms", "5.4 ms"],
      ["", "K1", "K1 K2", "K2"],
    ],
    [
      ["5 ms", "5.4 ms", "5.4 ms"],
      ["", "K1"],
    ],
  ])("of three that shut each other out in %j, so many can be in together", (times, expected) => {
    expect(together(shutOut(times))).toEqual(expected);
  });

  test("a relay that takes away its own feed never comes to rest", () => {
    const m = machine(
      sketch({
        parts: { "G1 battery": {}, "S1 switch": {}, "K1 relay break": {} },
        wires: ["G1.+ S1.1", "S1.2 K1.30", "K1.87a K1.86", "K1.85 G1.-"],
      }),
    );
    const { landings, restless } = settle(m, withStand(coldState(m.circuit), 0, 1));
    expect(landings).toEqual([]);
    expect(restless).toEqual([0]);
  });
});

describe("one rest state", () => {
  test("is one of all, whichever of several goes on first", () => {
    let some = 0;
    fc.assert(
      fc.property(anyLoom, (loom) => {
        const m = machine(loom);
        for (const { state } of explore(m).found.slice(0, 6))
          for (const { start } of movesFrom(m.circuit, state))
            for (const takesLast of [false, true]) {
              const one = oneRest(m, start, { takesLast });
              if (one === undefined) continue;
              some++;
              expect(settleToRest(m, start).states.map((s) => s.key)).toContain(one.key);
            }
      }),
      { numRuns: 30, seed: 261126 },
    );
    expect(some).toBeGreaterThan(100);
  });
});

describe("explore", () => {
  test("two switches and no relay: four states, each reached", () => {
    const m = machine(
      sketch({
        parts: { "G1 battery": {}, "S1 switch": {}, "S2 switch": {}, "E1 lamp": {}, "E2 lamp": {} },
        wires: ["G1.+ S1.1", "S1.2 E1.a", "E1.b G1.-", "G1.+ S2.1", "S2.2 E2.a", "E2.b G1.-"],
      }),
    );
    const { found, complete } = explore(m);
    expect(complete).toBe(true);
    expect(new Set(found.map((f) => f.state.stands.join()))).toEqual(new Set(["0,0", "1,0", "0,1", "1,1"]));
  });

  test("a specimen keeps its threshold along a history: the search splits once", () => {
    // 6 V over the coil, between the 4.2 V and 7.2 V at which such a relay may pull in.
    const m = machine(
      sketch({
        parts: { "G1 battery": {}, "S1 switch": {}, "R1 resistor": { ohms: "95 ohm" }, "K1 relay make": {} },
        wires: ["G1.+ S1.1", "S1.2 R1.a", "R1.b K1.86", "K1.85 G1.-"],
      }),
    );
    const closed = explore(m).found.filter((f) => f.state.stands[0] === 1);
    expect(closed.map((f) => `${f.state.latches[0]} ${f.state.ends[0]}`).sort()).toEqual(["0 8", "1 4"]);
  });

  test("between where it may pull in and where it may let go, no relay does both", () => {
    // About 4.9 V over the coil: above the least at which such a relay may pull in, below the most at which one lets go.
    const m = machine(
      sketch({
        parts: { "G1 battery": {}, "S1 switch": {}, "R1 resistor": { ohms: "135 ohm" }, "K1 relay make": {} },
        wires: ["G1.+ S1.1", "S1.2 R1.a", "R1.b K1.86", "K1.85 G1.-"],
      }),
    );
    const { found, restless, rattling } = explore(m);
    expect([restless, rattling]).toEqual([[], []]);
    const closed = found.filter((f) => f.state.stands[0] === 1);
    expect(closed.map((f) => `${f.state.latches[0]} ${f.state.ends[0]}`).sort()).toEqual(["0 8", "1 4"]);
  });

  test("past its budget it stops and says so", () => {
    const m = machine(twoRelays("3 ms", "10 ms"));
    expect(explore(m, { budget: 1 }).complete).toBe(false);
    expect(explore(m, { budgetMoments: 1 }).complete).toBe(false);
  });
});

/** The relay K1 drops with the switch; K2 drops later or sooner, and K1's rest contact would hold it. */
const caught = (k2Release: string) =>
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
      "K1 relay changeover": { release: "2 V", operate: "7 V", releaseTime: "5 ms", operateTime: "3 ms" },
      "K2 relay make": { release: "2 V", operate: "7 V", releaseTime: k2Release, operateTime: "3 ms" },
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
      "K1.87a K2.86",
    ],
  });

describe("holds", () => {
  test("caught: a rest contact closes before the slower relay is out", () => {
    const holds = holdsIn(explore(machine(caught("9 ms"))));
    expect(holds.map((h) => `${h.ring} ${h.kind} ${h.through}`)).toEqual(["1 caught loop"]);
  });

  test("the same wiring with a faster relay has no hold", () => {
    expect(holdsIn(explore(machine(caught("2 ms"))))).toEqual([]);
  });
});
