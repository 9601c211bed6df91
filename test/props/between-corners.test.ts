import { analyse } from "@loomproof/analyzer";
import { resolve, sketch } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { exampleLoom } from "../examples/examples.ts";
import { newsOf } from "./between-corners.ts";
import { specimenOf } from "./specimen.ts";

// A few vehicles; `npm run soak` looks at many.

describe("vehicles between the corners", () => {
  test.each([
    ["fuel-feed-cured", 1, 4],
    ["marigold-cured", 1, 1],
    // A controller that a hold keeps on with the key off was said to be lost while cranking.
    ["fuel-feed", 31, 1],
    // A relay that comes along with a hold was said to let go just in time.
    ["marigold-first", 1, 1],
  ])("%s: from seed %s on %s show nothing that the corners do not", (name, first, samples) => {
    expect(newsOf(exampleLoom(name), first, samples)).toEqual([]);
  });

  test("each is drawn from the spreads, and the same by the same seed", () => {
    const loom = exampleLoom("fuel-feed");
    expect(specimenOf(loom, 7)).toEqual(specimenOf(loom, 7));
    expect(specimenOf(loom, 7)).not.toEqual(specimenOf(loom, 8));
    const K3 = { release: { least: 1.2, most: 2.4 } };
    const warm: number[] = [];
    for (let seed = 1; seed <= 40; seed++) {
      const relay = resolve(specimenOf(loom, seed)).parts.find((p) => p.id === "K3");
      if (relay?.family !== "relay") throw new Error("K3 is a relay");
      const { coil, operate, release } = relay.values;
      expect(release.least).toBe(release.most);
      expect(release.most).toBeLessThan(operate.least);
      // Amps are volts over ohms of the warm coil; those of the sheet are volts over 90 ohm.
      const atTwenty = (release.least / coil) * 90;
      expect(atTwenty).toBeGreaterThanOrEqual(K3.release.least - 1e-4);
      expect(atTwenty).toBeLessThanOrEqual(K3.release.most + 1e-4);
      warm.push(coil / 90);
    }
    // From -20 °C to 105 °C copper goes from 1 - 40/254.5 = 0.843 to 1 + 85/254.5 = 1.334.
    expect(Math.min(...warm)).toBeGreaterThan(0.842);
    expect(Math.max(...warm)).toBeLessThan(1.335);
    expect(Math.max(...warm) - Math.min(...warm)).toBeGreaterThan(0.3);
  });

  test("a finding that only some vehicles have would be noticed", () => {
    // A lamp holds K1 in some relays and not in others; with its release said to be 5 V no run has it hold.
    const loom = (release: string | readonly [string, string]) =>
      sketch({
        parts: {
          "G1 battery": {},
          "F1 protector": {},
          "S1 switch": {},
          "E1 lamp indicator": { watts: "0.8 W", lowIsMeant: "in series with a coil" },
          "K1 relay make": { operate: "7 V", release },
          "M1 motor pump": {},
        },
        wires: [
          "G1.+ F1.a",
          "F1.b S1.1",
          "S1.2 K1.86",
          "K1.85 G1.-",
          "F1.b E1.a",
          "E1.b K1.86",
          "F1.b K1.30",
          "K1.87 M1.+",
          "M1.- G1.-",
        ],
      });
    const wide = loom(["1.2 V", "6 V"]);
    const has = (seed: number) => analyse(specimenOf(wide, seed)).findings.some((f) => f.id === "self-hold:K1");
    const seeds = Array.from({ length: 12 }, (_, i) => i + 1);
    expect(new Set(seeds.map(has))).toEqual(new Set([true, false]));
    expect(newsOf(wide, 1, 12)).toEqual([]);
    expect(analyse(loom("6 V")).findings.some((f) => f.id === "self-hold:K1")).toBe(false);
  });
});
