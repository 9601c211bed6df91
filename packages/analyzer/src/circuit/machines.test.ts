import { sketch } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { explore, type Found, type Reachable } from "../behave/explore.ts";
import { onState } from "../behave/loads.ts";
import { machineOf, pointOf } from "../behave/machine.ts";
import { compile } from "./compile.ts";
import { USUAL } from "./patch.ts";

// Engine, starter, alternator, latching relay and LED unit as parts of whole small looms (invented).

const walk = (loom: Parameters<typeof compile>[0]): Reachable => explore(machineOf(compile(loom), USUAL));

function names({ machine }: Reachable, f: Found): string {
  const { circuit } = machine;
  const stands = circuit.inputs.map((input, i) => `${input.id} ${input.stands[f.state.stands[i] ?? 0]}`);
  const on = circuit.latches.flatMap((l, i) => (f.state.latches[i] === 1 ? [l.id] : []));
  return [...stands, ...on].join(", ");
}

const find = (r: Reachable, ...all: readonly string[]) =>
  r.found.filter((f) => all.every((word) => names(r, f).split(", ").includes(word)));

function volts(r: Reachable, f: Found | undefined, terminal: string): number {
  if (f === undefined) throw new Error("no such state");
  return pointOf(r.machine, f.state).op.volts[r.machine.circuit.nodeOf.get(terminal) ?? 0] ?? 0;
}

function load(r: Reachable, f: Found | undefined, part: string): string {
  const l = r.machine.circuit.loads.find((o) => o.part === part && o.judge.kind !== "latch");
  if (f === undefined || l === undefined) throw new Error("no such state or load");
  return onState(r.machine, f.state, pointOf(r.machine, f.state), l);
}

const tractor = (chargeLamp = true) =>
  sketch({
    parts: {
      "G1 battery": {},
      "G2 alternator": {},
      "M1 starter": {},
      "E1 engine": { crankedBy: "M1" },
      "S1 key-switch": {},
      "P1 lamp indicator": { watts: "3 W" },
    },
    wires: [
      "G1.+ M1.30",
      "M1.31 G1.-",
      "G1.+ G2.B+",
      "G2.31 G1.-",
      "G1.+ S1.30",
      "S1.50 M1.50",
      ...(chargeLamp ? ["S1.15 P1.a", "P1.b G2.D+"] : ["S1.15 P1.a", "P1.b G1.-"]),
    ],
  });

describe("engine, starter and alternator", () => {
  const r = walk(tractor());

  test("cranking: the solenoid is in, the motor turns, the battery sags", () => {
    const [cranking] = find(r, "S1 start", "M1", "E1/cranked", "E1 stopped");
    expect(load(r, cranking, "M1")).toBe("on");
    expect(volts(r, cranking, "G1.+")).toBeLessThan(12.2);
  });

  test("no engine runs that was never cranked, and it runs on when the key springs back", () => {
    expect(find(r, "E1/running", "S1 off").every((f) => f.before >= 0)).toBe(true);
    expect(find(r, "E1/running", "S1 run")).not.toEqual([]);
    expect(r.found.some((f) => names(r, f).includes("E1/running") && !names(r, f).includes("E1/turning"))).toBe(false);
  });

  test("the charge lamp is lit at rest with the key on and out while the engine runs", () => {
    const rest = find(r, "S1 run", "E1 stopped").find((f) => !names(r, f).includes("turning"));
    expect(load(r, rest, "P1")).toBe("on");
    const [running] = find(r, "S1 run", "E1/running", "G2/excited");
    expect(load(r, running, "P1")).toBe("off");
    expect(volts(r, running, "G1.+")).toBeGreaterThan(13.5);
  });

  test("without the charge lamp it is never excited", () => {
    const bare = walk(tractor(false));
    expect(find(bare, "E1/running")).not.toEqual([]);
    expect(find(bare, "G2/excited")).toEqual([]);
  });

  test("the windings cancel: a closed main contact does not hold the solenoid", () => {
    expect(find(r, "M1").every((f) => names(r, f).includes("S1 start"))).toBe(true);
    // By volts the hold-in winding would stay well above its release: current comes back through the pull-in winding.
    const { circuit } = r.machine;
    const [cranking] = find(r, "S1 start", "M1");
    if (cranking === undefined) throw new Error("it does not crank");
    const stands = cranking.state.stands.slice();
    stands[circuit.inputs.findIndex((i) => i.id === "S1")] = 0;
    const state = { ...cranking.state, stands, pointKey: "key off, contact still closed" };
    const point = pointOf(r.machine, state);
    const armature = circuit.latches.findIndex((l) => l.id === "M1");
    expect(point.op.volts[circuit.nodeOf.get("M1.50") ?? 0]).toBeGreaterThan(6);
    expect(point.drives[armature]).toBeLessThan(1e-3);
  });
});

describe("latching relay", () => {
  const loom = (delivered: string) =>
    sketch({
      parts: {
        "G1 battery": {},
        "S1 switch push": {},
        "S2 switch push": {},
        "K1 relay latching": { delivered, windings: [{ between: ["86", "85"] }, { between: ["85r", "86r"] }] },
        "E1 lamp": {},
      },
      wires: [
        "G1.+ S1.1",
        "S1.2 K1.86",
        "K1.85 G1.-",
        "G1.+ S2.1",
        "S2.2 K1.86r",
        "K1.85r G1.-",
        "G1.+ K1.30",
        "K1.87 E1.a",
        "E1.b G1.-",
      ],
    });

  test.each(["out", "in"])("delivered %s: it stays where it was put and counts as no memory", (delivered) => {
    const r = walk(loom(delivered));
    const first = r.found[0];
    expect(first && load(r, first, "E1")).toBe(delivered === "in" ? "on" : "off");
    const quiet = find(r, "S1 open", "S2 open");
    expect(new Set(quiet.map((f) => names(r, f).includes("K1")))).toEqual(new Set([true, false]));
  });
});

describe("LED unit", () => {
  test("nothing below its knee, backwards nothing", () => {
    const loom = (ends: readonly string[]) =>
      sketch({
        parts: { "G1 battery": {}, "R1 resistor": { ohms: "100 kohm" }, "E1 led": {}, "E2 led": { knee: "13 V" } },
        wires: [...ends, "G1.+ E2.+", "E2.- G1.-"],
      });
    const right = walk(loom(["G1.+ R1.a", "R1.b E1.+", "E1.- G1.-"]));
    expect(load(right, right.found[0], "E1")).toBe("off");
    expect(load(right, right.found[0], "E2")).toBe("off");
    const plain = walk(loom(["G1.+ E1.+", "E1.- R1.a", "R1.b R1.a", "R1.b G1.-"]));
    expect(load(plain, plain.found[0], "E1")).toBe("on");
    const reversed = walk(loom(["G1.+ E1.-", "E1.+ R1.a", "R1.b R1.a", "R1.b G1.-"]));
    expect(load(reversed, reversed.found[0], "E1")).toBe("off");
  });
});
