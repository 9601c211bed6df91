import { readdirSync, readFileSync } from "node:fs";
import { type Loom, parse, sketch } from "@loomproof/netlist";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { machineOf } from "../behave/machine.ts";
import { settle } from "../behave/settle.ts";
import { coldState, withStand } from "../behave/state.ts";
import { compile } from "../circuit/compile.ts";
import { USUAL } from "../circuit/patch.ts";
import { type Agreement, agreementOf, lightCoils, realCoils, scriptOf, specimen } from "../testing/agreement.ts";
import { anyLoom } from "../testing/random-loom.ts";
import type { Choice } from "./choice.ts";
import { rigOf } from "./rig.ts";
import { run } from "./run.ts";

// A timeline follows one specimen through one order of events. Where its coils store nothing, every relay takes the time
// that `behave` reckons with, and the state it settles in must be one that `behave` reaches: always. Real coils do more
// than their times say; where they end elsewhere, it must be for a reason that is known.

const root = new URL("../../../../", import.meta.url);
const files = ["examples", "test/cases/looms"].flatMap((folder) =>
  readdirSync(new URL(folder, root))
    .filter((f) => f.endsWith(".loom.json"))
    .sort()
    .map((f) => `${folder}/${f}`),
);

const WAYS: readonly (readonly [seed: number, share: number, choice: Choice])[] = [
  [1, 0.5, "usual"],
  [2, 0.1, "slowest"],
  [3, 0.9, "fastest"],
];
const MOVES = 6;

function open(file: string): Loom {
  const read = parse(readFileSync(new URL(file, root), "utf8"));
  if (!read.ok) throw new Error(file);
  return read.loom;
}

function agreements(loom: Loom, coils: "light" | "real"): readonly Agreement[] {
  const whole = compile(loom);
  return WAYS.map(([seed, share, choice]) => {
    const circuit = specimen(whole, share, choice);
    const script = scriptOf(circuit, seed, MOVES);
    // What stores nothing needs few steps; a budget ends what never comes to rest.
    return coils === "light"
      ? agreementOf(circuit, script, { choice, coils: lightCoils(circuit, choice), budget: 600 })
      : agreementOf(circuit, script, { choice, coils: realCoils(circuit, choice), budget: 3000 });
  });
}

const saysOf = (list: readonly Agreement[]): readonly string[] => list.flatMap((a) => ("says" in a ? [a.says] : []));

/** Looms in which real coils end elsewhere, and why. */
const KNOWN: Readonly<Record<string, string>> = {
  // The controller is to stay half awake on what its pump relay's coil lets through. That current takes milliseconds to
  // build up; a supply without a capacitor is gone by then.
  "test/cases/looms/C14F.loom.json": "a coil's current builds up too late to hold what it feeds",
};

describe("the state that a timeline settles in is one that behave reaches", () => {
  test.each(files)("%s, coils that store nothing", (file) => {
    expect(saysOf(agreements(open(file), "light"))).toEqual([]);
  });

  test.each(files)("%s, real coils", (file) => {
    const says = saysOf(agreements(open(file), "real"));
    expect(says.length > 0, says.join("\n")).toBe(file in KNOWN);
  });

  test.each([1, 2])("120 random looms of seed %i, coils that store nothing", (seed) => {
    const kinds = new Map<string, number>();
    fc.sample(anyLoom, { numRuns: 120, seed }).forEach((loom, i) => {
      for (const a of agreements(loom, "light")) {
        kinds.set(a.kind, (kinds.get(a.kind) ?? 0) + 1);
        expect(a.kind === "disagrees" ? a.says : "", `seed ${seed}, loom ${i}`).toBe("");
      }
    });
    // Where two relays land at one moment the timeline lets both land; `behave` also follows one after the other.
    expect(kinds.get("one order rests") ?? 0).toBeLessThanOrEqual(2);
    expect(kinds.get("agrees") ?? 0).toBeGreaterThan(240);
  });

  // Coils in series push each other: the current of one that was on goes on through the other and may pull it in.
  test("100 random looms, real coils: elsewhere in no more than 3 of 100 scripts, each printed", () => {
    const says = fc
      .sample(anyLoom, { numRuns: 100, seed: 7 })
      .flatMap((loom, i) => saysOf(agreements(loom, "real")).map((s) => `seed 7, loom ${i}: ${s}`));
    if (says.length > 0) console.info(says.join("\n"));
    expect(says.length).toBeLessThanOrEqual(9);
  });
});

// While a changeover contact is in the air, its relay is fed by neither side: whether it holds is a matter of times.
describe("a relay fed through its own rest contact, and held through its make contact", () => {
  const circuitOf = (times: { readonly releaseTime: string; readonly transit: string }) =>
    compile(
      sketch({
        parts: {
          "G1 battery": {},
          "F1 protector": {},
          "S1 switch": {},
          "K1 relay changeover": times,
        },
        wires: ["G1.+ F1.a", "F1.b K1.86", "K1.85 S1.1", "S1.2 K1.30", "K1.87 G1.-", "K1.87a G1.-"],
      }),
    );
  const script = [{ at: "rest" as const, input: 0, stand: 1 }];

  test.each([
    // It would let go 8 - 2 = 6 ms after its feed has gone, and has it back after 2 ms.
    ["holds: its contact arrives in time", { releaseTime: "8 ms", transit: "2 ms" }, "at rest", 1],
    // 3 - 1.5 = 1.5 ms, and no feed for 2 ms: the contact is in the air for half of a release at most.
    ["buzzes: it has let go again by then", { releaseTime: "3 ms", transit: "2 ms" }, "never at rest", undefined],
  ])("%s", (_, times, end, on) => {
    const circuit = circuitOf(times);
    for (const coils of [lightCoils(circuit, "usual"), realCoils(circuit, "usual")]) {
      const played = run(rigOf(circuit, { choice: "usual", measured: coils }), script, {
        choice: "usual",
        budget: 2000,
      });
      expect([played.end, on && played.state.latches[0]]).toEqual([end, on]);
    }
    const machine = machineOf(circuit, USUAL);
    const { landings, restless } = settle(machine, withStand(coldState(circuit), 0, 1));
    expect(landings.map((l) => l.state.latches[0])).toEqual(on === undefined ? [] : [on]);
    // The contact never arrives.
    expect(restless).toEqual(on === undefined ? [0] : undefined);
  });
});
