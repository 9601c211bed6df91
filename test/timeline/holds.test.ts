import { readFileSync } from "node:fs";
import { CHOICES, play, type Timeline } from "@loomproof/analyzer";
import { type Loom, parse, sketch } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";

// Two kinds of hold over milliseconds. Both looms are invented.

function played(loom: Loom, moves: string, options: Parameters<typeof play>[2] = {}): Timeline {
  const result = play(loom, moves, options);
  if (!result.ok) throw new Error(`${result.problem.found}: ${result.problem.expected}`);
  return result.timeline;
}

const at = ({ events }: Timeline, kind: string, id: string, to: string): number =>
  events.findLast((e) => e.kind === kind && e.id === id && e.to === to)?.ms ?? Number.POSITIVE_INFINITY;
const goesAt = (t: Timeline, id: string): number => at(t, "latch", id, "off");

describe("a standing hold: the fuel feed", () => {
  const file = readFileSync(new URL("../../examples/fuel-feed.loom.json", import.meta.url), "utf8");
  const MOVES = "S1=run, 100ms A1.4=on, 300ms S1=off";
  /** K3's sheet: it lets go somewhere from 1.2 V to 2.4 V of its 90 ohm. */
  const RELEASE_MOST = 2.4 / 90;

  const withK3 = (suppression: string): Loom => {
    const text = file.replace('"label": "Fuel feed",', `"label": "Fuel feed", "suppression": ${suppression},`);
    const read = parse(text);
    expect(text).not.toBe(file);
    if (!read.ok) throw new Error(JSON.stringify(read.problems));
    return read.loom;
  };

  test.each(
    CHOICES.flatMap((times) =>
      ['"none"', '{"diode": "85>86"}', '{"resistor": "680 ohm"}'].map((s) => [times, s] as const),
    ),
  )("%s times, K3 with %s: its current falls to what holds it and never touches release", (times, suppression) => {
    const t = played(withK3(suppression), MOVES, { times });
    expect(t.after.in).toEqual(["K2", "K3"]);
    const from = t.traces.ms.indexOf(goesAt(t, "K1"));
    const amps = t.traces.coils.find((c) => c.id === "K3")?.amps.slice(from) ?? [];
    const [first = 0, last = 0] = [amps[0], amps[amps.length - 1]];
    expect(first).toBeGreaterThan(3 * last);
    expect(last).toBeGreaterThan(RELEASE_MOST);
    // No lower on the way than at the end, to the figures told.
    expect(Math.min(...amps)).toBeGreaterThan(0.999 * last);
  });
});

describe("a caught hold: a rest contact closes the loop while a slower relay is still in", () => {
  type Suppression = "none" | { readonly diode: string } | { readonly resistor: string };
  const NONE: Suppression = "none";
  const DIODE: Suppression = { diode: "85>86" };
  const resistor = (ohms: number): Suppression => ({ resistor: `${ohms} ohm` });

  /** The switch lets both relays go. K1's rest contact then feeds K2 through K2's own contact, if that is still closed. */
  const loomOf = (k1: Suppression, k2: Suppression, isLoopWired = true): Loom =>
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
        "K1 relay changeover": { suppression: k1 },
        "K2 relay make": { suppression: k2 },
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
        ...(isLoopWired ? ["K1.87a K2.86"] : []),
      ],
    });

  const MOVES = "S1=on, 100ms S1=off";
  const isHeld = (k1: Suppression, k2: Suppression): boolean => played(loomOf(k1, k2), MOVES).after.in.join() === "K2";
  /** How long K2 stays in after K1's rest contact has closed, were the loop not wired, ms: the overlap. */
  const marginMs = (k1: Suppression, k2: Suppression): number => {
    const t = played(loomOf(k1, k2, false), MOVES);
    const transitMs = 1000 * (t.coils.find((c) => c.id === "K1")?.transitSeconds ?? Number.NaN);
    // Nothing hangs on a rest contact that is not wired: it closes so long after K1's coil has let go.
    return goesAt(t, "K2") - (goesAt(t, "K1") + transitMs);
  };

  test.each([
    ["K1 bare, K2 with a diode", NONE, DIODE, true],
    ["K1 with a resistor, K2 with a diode", resistor(680), DIODE, true],
    ["both with a diode", DIODE, DIODE, false],
    ["both bare", NONE, NONE, false],
    ["K1 with a diode, K2 with a resistor", DIODE, resistor(680), false],
    ["K1 bare, K2 with a resistor", NONE, resistor(220), true],
    ["K1 with 220 ohm, K2 with 680 ohm", resistor(220), resistor(680), false],
  ])("%s: held is %o", (_, k1, k2, held) => {
    const margin = marginMs(k1, k2);
    expect(isHeld(k1, k2)).toBe(held);
    expect(margin > 0).toBe(held);
  });

  test("either suppression moves the margin across zero", () => {
    const ohms = [680, 330, 150, 82];
    const byK2 = [NONE, ...ohms.map(resistor), DIODE].map((k2) => marginMs(resistor(330), k2));
    const byK1 = [NONE, ...ohms.map(resistor), DIODE].map((k1) => marginMs(k1, resistor(330)));
    console.info(`overlap in ms, K1 with 330 ohm, K2 bare ... diode: ${byK2.map((m) => m.toFixed(1)).join(", ")}`);
    console.info(`overlap in ms, K2 with 330 ohm, K1 bare ... diode: ${byK1.map((m) => m.toFixed(1)).join(", ")}`);
    expect(byK2).toEqual(byK2.toSorted((a, b) => a - b));
    expect(byK1).toEqual(byK1.toSorted((a, b) => b - a));
    for (const margins of [byK1, byK2]) {
      expect(Math.min(...margins)).toBeLessThan(0);
      expect(Math.max(...margins)).toBeGreaterThan(0);
    }
  });
});
