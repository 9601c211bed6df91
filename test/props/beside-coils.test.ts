import { CHOICES, compile, play } from "@loomproof/analyzer";
import { sketch } from "@loomproof/netlist";
import fc from "fast-check";
import { expect, test } from "vitest";

// How long a relay takes to let go with anything across its coil: what the search reckons with holds every time that the
// transient comes to.

const own = fc.constantFrom("none", { resistor: "680 ohm" }, { diode: "85>86" });
const times = fc.constantFrom(["1 ms", "3 ms"], ["4 ms", "7 ms"], ["10 ms", "15 ms"]);
const watts = fc
  .integer({ min: 1, max: 60 })
  .map((w) => ({ is: "lamp", values: { watts: `${w} W` }, ends: ["a", "b"] }));
const ohms = fc
  .integer({ min: 10, max: 2000 })
  .map((r) => ({ is: "resistor", values: { ohms: `${r} ohm` }, ends: ["a", "b"] }));
const farads = fc
  .integer({ min: 1, max: 2000 })
  .map((c) => ({ is: "capacitor", values: { farads: `${c} uF` }, ends: ["+", "-"] }));
const across = fc.array(fc.oneof(watts, ohms, farads), { maxLength: 2 });

test("the search reckons with every release that the transient plays", () => {
  fc.assert(
    fc.property(own, times, across, fc.constantFrom(...CHOICES), (suppression, releaseTime, things, choice) => {
      // A diode by itself takes its time: its sheet would say so.
      fc.pre(typeof suppression === "string" || "resistor" in suppression || releaseTime[0] === "10 ms");
      const loom = sketch({
        parts: {
          "G1 battery": {},
          "S1 switch": {},
          "K1 relay make": { coil: "90 ohm", operateTime: "5 ms", releaseTime, suppression },
          ...Object.fromEntries(things.map(({ is, values }, k) => [`X${k + 1} ${is}`, values])),
        },
        wires: [
          "G1.+ S1.1",
          "S1.2 K1.86",
          "K1.85 G1.-",
          ...things.flatMap(({ ends: [from, to] }, k) => [`S1.2 X${k + 1}.${from}`, `X${k + 1}.${to} G1.-`]),
        ],
      });
      const played = play(loom, "S1=closed, 500ms S1=open", { times: choice });
      if (!played.ok) throw new Error(JSON.stringify(played.problem));
      const released = played.timeline.events.find((e) => e.says === "K1 lets go");
      const { offTime } = compile(loom).latches[0] ?? {};
      const ms = (released?.ms ?? Number.NaN) - 500;
      // A sheet's times are those at rated volts; the battery gives 5 % more.
      expect(ms).toBeGreaterThanOrEqual((offTime?.least ?? 0) * 1e3 * 0.95);
      expect(ms).toBeLessThanOrEqual((offTime?.most ?? 0) * 1e3 * 1.05);
    }),
    { numRuns: 150, seed: 20_261_126 },
  );
});
