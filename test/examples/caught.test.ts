import { analyse, CHOICES, play, type Timeline } from "@loomproof/analyzer";
import { type Loom, parse } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { exampleText } from "./examples.ts";

// The caught hold of Marigold. With the key off both relays lose their feed at the same moment, each through a contact
// of its own. K6 drops, its rest contact gives the coil of K5 what K5's own contact still lets through.

/** How a relay's coil is quenched, and the release time that goes with it: the bench of an invented owner. */
interface Fitted {
  readonly suppression: string;
  readonly releaseTime: string;
}
const RESISTOR = '{"resistor": "680 ohm"}';
const DIODE = '{"diode": "85>86"}';
const AS_WIRED: Readonly<Record<"K5" | "K6", Fitted>> = {
  K5: { suppression: DIODE, releaseTime: '["8 ms", "11 ms"]' },
  K6: { suppression: RESISTOR, releaseTime: '["2.5 ms", "4.5 ms"]' },
};
const K5_BARE: Fitted = { suppression: '"none"', releaseTime: '["1 ms", "2 ms"]' };
const K6_WITH_DIODE: Fitted = { suppression: DIODE, releaseTime: '["12 ms", "16 ms"]' };

/** The example with other parts across its two coils; without times, if the coil is to say how long it takes. */
function fitted(name: string, given: Partial<typeof AS_WIRED>, isTimed = true): Loom {
  let text = exampleText(name);
  for (const id of ["K5", "K6"] as const) {
    const line = text.split("\n").find((l) => l.startsWith(`{"id": "${id}"`)) ?? "";
    const [was, is] = [AS_WIRED[id], given[id] ?? AS_WIRED[id]];
    const time = `"releaseTime": ${was.releaseTime}, `;
    const suppression = `"suppression": ${was.suppression}`;
    expect(line).toContain(time + suppression);
    const other = line
      .replace(time, isTimed ? `"releaseTime": ${is.releaseTime}, ` : "")
      .replace(suppression, `"suppression": ${is.suppression}`);
    text = text.replace(line, other);
  }
  const read = parse(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.loom;
}

describe("proved", () => {
  const toldOf = (loom: Loom) =>
    analyse(loom).findings.filter((f) => f.under === undefined && f.severity !== "note" && f.where.includes("K5"));

  test("as wired it is caught, by what is left of K5 when K6 has let go", () => {
    const [told, ...more] = toldOf(fitted("marigold-first", {}));
    expect(more).toEqual([]);
    // Both begin together. K6 late, K5 early: 8 - 4.5 = 3.5 ms. K6 early, K5 late: 11 - 2.5 = 8.5 ms.
    expect(told?.id).toBe("self-hold:K5");
    expect(told?.hold).toMatchObject({
      ring: ["K5"],
      kind: "caught",
      margin: { says: "K6 lets go up to 8.5\u00a0ms before K5 would let go", least: 3.5, most: 8.5 },
    });
    expect(told?.cuts?.harmless.map((c) => c.wires)).toContainEqual(["W139"]);
  });

  test.each([
    // K5 is out 2.5 - 2 = 0.5 ms to 4.5 - 1 = 3.5 ms before K6 lets go.
    ["K5 bare", { K5: K5_BARE }, 0.5, 3.5],
    // K5 is out 12 - 11 = 1 ms to 16 - 8 = 8 ms before K6 lets go.
    ["K6 with a diode", { K6: K6_WITH_DIODE }, 1, 8],
  ])("%s: it lets go in time, by so many ms", (_, given, least, most) => {
    const told = toldOf(fitted("marigold-first", given));
    expect(told.map((f) => `${f.severity} ${f.id}`)).toEqual(["caution release-overlap:K5+K6"]);
    expect(told[0]?.numbers.map((n) => n.value)).toEqual([least, most]);
  });

  test("cured, and the quicker relay the slower: nothing, for it does not hang on times", () => {
    expect(toldOf(fitted("marigold-cured", { K5: K5_BARE }))).toEqual([]);
  });
});

describe("played", () => {
  const MOVES = "manifold=cold S1=accessories, 200ms S1=off";
  function played(loom: Loom, times?: (typeof CHOICES)[number]): Timeline {
    const result = play(loom, MOVES, times === undefined ? {} : { times });
    if (!result.ok) throw new Error(`${result.problem.found}: ${result.problem.expected}`);
    return result.timeline;
  }
  const isHeld = (t: Timeline): boolean => t.after.in.includes("K5");

  /** How long K5 is still in when K6's rest contact has closed, were W139 not there to hold it, ms. */
  function overlapMs(loom: Loom): number {
    const { events, coils } = played({ ...loom, wires: loom.wires.filter((w) => w.id !== "W139") });
    const goesAt = (id: string): number =>
      events.findLast((e) => e.kind === "latch" && e.id === id && e.to === "off")?.ms ?? Number.NaN;
    const transitMs = 1000 * (coils.find((c) => c.id === "K6")?.transitSeconds ?? Number.NaN);
    // Nothing hangs on a rest contact that is not wired: it closes so long after K6's coil has let go.
    return goesAt("K5") - (goesAt("K6") + transitMs);
  }

  test.each([
    ["as wired", {}, true],
    ["K5 bare", { K5: K5_BARE }, false],
    ["K6 with a diode", { K6: K6_WITH_DIODE }, false],
  ])("%s: held is %o, by the times given and by what coil and suppression make of it", (what, given, held) => {
    for (const isTimed of [true, false]) {
      const loom = fitted("marigold-first", given, isTimed);
      const overlap = overlapMs(loom);
      console.info(`${what}, ${isTimed ? "times given" : "times of the coil"}: overlap ${overlap.toFixed(1)} ms`);
      expect(isHeld(played(loom))).toBe(held);
      expect(overlap > 0).toBe(held);
    }
  });

  test("as wired it is held at every end of the times", () => {
    for (const times of CHOICES) expect(isHeld(played(fitted("marigold-first", {}), times)), times).toBe(true);
  });

  test("cured, the heater goes off with the key and stays on while cranking", () => {
    const loom = fitted("marigold-cured", {});
    expect(isHeld(played(loom))).toBe(false);
    const cranked = play(loom, "manifold=cold S4=taken S1=accessories, 200ms S1=run, 400ms S1=start");
    expect(cranked.ok && [...cranked.timeline.after.in]).toEqual(expect.arrayContaining(["K4", "K5"]));
    expect(cranked.ok && cranked.timeline.after.in).not.toContain("K6");
  });
});
