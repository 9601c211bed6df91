import { exploreLoom, searchByScopes } from "@loomproof/analyzer/testing";
import { type Loom, parse, write } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { truck } from "./truck.ts";

const count = (loom: Loom, ...families: readonly string[]) => loom.parts.filter((p) => families.includes(p.is)).length;
const outputs = (loom: Loom) => (loom.definitions[0]?.pins ?? []).filter((p) => p.kind === "low-side");

describe("the truck of the bench", () => {
  test.each([25, 50, 100, 250, 500, 1000, 2000])("%d parts: a loom as the reader takes it, with its shares", (size) => {
    const loom = truck(size, 1);
    const read = parse(write(loom));
    expect(read.ok ? [] : read.problems).toEqual([]);
    expect(loom.parts.length).toBe(size);
    expect(count(loom, "battery")).toBe(2);
    expect(count(loom, "relay")).toBe(Math.max(4, Math.round(0.06 * size)));
    expect(count(loom, "switch", "key-switch")).toBe(Math.max(4, Math.round(0.08 * size)));
    expect(loom.wires.filter((w) => w.ohms === "30 mohm").length).toBe(1);
    if (size >= 250) expect(outputs(loom).length).toBe(16);
    expect(outputs(loom).every((p) => p.clamp !== undefined)).toBe(true);
  });

  test("the same seed gives the same bytes, another seed another truck", () => {
    expect(write(truck(250, 7))).toBe(write(truck(250, 7)));
    expect(write(truck(250, 8))).not.toBe(write(truck(250, 7)));
  });

  test.each([25, 50])("%d parts are proved completely", (size) => {
    const { complete, asUsual, states } = exploreLoom(truck(size, 1));
    expect({ complete, asUsual }).toEqual({ complete: true, asUsual: 0 });
    expect(states).toBeGreaterThan(50);
  });

  test("two circuits on the weak feed are one: the heater takes the relay of the other away", () => {
    const [own, ...others] = searchByScopes(truck(25, 1)).filter((s) => s.latches.join() === "K3");
    expect(others).toEqual([]);
    const seen = own?.quiet.map(({ stands, on }) => `coil ${stands.S2}, heater ${stands.S3}: ${on.join() || "out"}`);
    expect(seen?.sort()).toEqual([
      "coil closed, heater closed: out",
      "coil closed, heater open: K3",
      "coil open, heater closed: out",
      "coil open, heater open: out",
    ]);
  });
});
