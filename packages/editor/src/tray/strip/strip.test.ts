import { readFileSync } from "node:fs";
import { analyse, type Choice, chartEnd, type Finding, play, rules, type Timeline } from "@loomproof/analyzer";
import { type Loom, parse, resolve } from "@loomproof/netlist";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { geometryOf } from "./geometry.ts";
import { firstTerminals, type Lane, lanesOf, lineAt, readingAt } from "./lanes.ts";
import { exampleMoves, storyMoves } from "./moves.ts";
import { overlapOf } from "./overlap.ts";
import { marksBetween, rangeOf } from "./scale.ts";
import { freest, type Spot, thinned } from "./thin.ts";

const at = (path: string) => readFileSync(new URL(`../../../../../${path}`, import.meta.url), "utf8");

function loomOf(text: string): Loom {
  const read = parse(text);
  if (!read.ok) throw new Error("it is no loom");
  return read.loom;
}

function played(loom: Loom, moves: string, times: Choice = "usual"): Timeline {
  const result = play(loom, moves, { times });
  if (!result.ok) throw new Error(`found ${result.problem.found}`);
  return result.timeline;
}

const feed = loomOf(at("examples/fuel-feed.loom.json"));
const resolved = resolve(feed);
const timeline = played(feed, "key=run, 100ms A1.4=on, 200ms key=off");
const { ms } = timeline.traces;
const lanes = lanesOf(resolved, timeline, ["A1.1"]);
const lane = (key: string): Lane => {
  const found = lanes.find((l) => l.key === key);
  if (found === undefined) throw new Error(`no lane ${key}`);
  return found;
};

describe("lanes", () => {
  test("what was moved, what moved by itself, and the volts that were asked for; nothing else", () => {
    expect(lanes.map((l) => l.key)).toEqual([
      "input S1",
      "input A1.4",
      ...["K1", "K2", "K3"].flatMap((k) => [`coil ${k} 1`, `contact ${k}`]),
      "volts A1.1",
    ]);
  });

  test("an input stands where it was moved to, a contact is in from landing to opening", () => {
    const spans = (key: string) => {
      const bar = lane(key);
      return bar.kind === "bar" ? bar.spans.map((s) => [Math.round(s.from), s.says]) : [];
    };
    expect(spans("input S1")).toEqual([
      [0, "run"],
      [200, "off"],
    ]);
    const event = (says: string) => Math.round(timeline.events.find((e) => e.says === says)?.ms ?? Number.NaN);
    expect(spans("contact K1")).toEqual([
      [0, "out"],
      [event("K1 pulls in"), "in"],
      [event("K1 lets go"), "out"],
    ]);
    for (const bar of lanes) if (bar.kind === "bar") expect(bar.spans.at(-1)?.to).toBe(chartEnd(timeline));
  });

  test("the limits are where the coil begins to move", () => {
    const coil = lane("coil K1 1");
    const begins = timeline.events.find((e) => e.kind === "begins" && e.id === "K1" && e.to === "off");
    if (coil.kind !== "line" || begins === undefined) throw new Error("no coil");
    expect(coil.limits.map((l) => l.says)).toEqual(["pulls in at 70.6\u00a0mA", "lets go at 38.8\u00a0mA"]);
    expect(lineAt(coil, ms, begins.ms)).toBeCloseTo(coil.limits[1]?.at ?? 0, 3);
  });

  test("a reading is what was computed there; where nothing holds a terminal it says so", () => {
    ms.forEach((moment, k) => {
      // Of two moments at one time the later is read.
      if (ms[k + 1] === moment || moment > chartEnd(timeline)) return;
      const volts = timeline.traces.volts["A1.1"]?.[k];
      const own = lane("volts A1.1");
      expect(own.kind === "line" && lineAt(own, ms, moment)).toBe(volts);
    });
    const gap: Lane = {
      key: "v",
      kind: "line",
      id: "X.1",
      says: "volts",
      unit: "V",
      values: [1, null, null, 2],
      limits: [],
    };
    expect([0.5, 1.5, 2.9, 3].map((t) => readingAt(gap, [0, 1, 2, 3], t))).toEqual([
      "1.00\u00a0V",
      "held by nothing",
      "held by nothing",
      "2.00\u00a0V",
    ]);
  });
});

describe("moves", () => {
  test("of a story, without power coming on and time that passes", () => {
    const moves = [{}, { manifold: "cold" }, { "time passes: A1": "" }, { S1: "run", S2: "closed" }];
    const finding = { moves: moves.map((set) => ({ set, then: [] })) } as unknown as Finding;
    expect(storyMoves(finding)).toBe("manifold=cold, S1=run S2=closed");
    expect(storyMoves(undefined)).toBe("");
  });

  test("a hand that turned straight on does so in the midst of its time", () => {
    const straightOn = { input: "S1", position: "right", least: 0, most: 30 };
    const finding = { moves: [{ set: { S1: "stop" }, then: [], straightOn }] } as unknown as Finding;
    expect(storyMoves(finding)).toBe("S1=stop, +15ms S1=right");
  });

  test("what is offered as an example can be played", () => {
    expect(play(feed, exampleMoves(resolved)).ok).toBe(true);
  });
});

describe("what is hatched", () => {
  const [, caughtText = ""] = /```json\n(.*?)```/s.exec(at("docs/play.md")) ?? [];
  const caught = loomOf(caughtText);
  test("a caught hold: from the contact that catches it, as long as the finding says", () => {
    const hold = analyse(caught).findings.find((f) => f.rule === "self-hold");
    const own = played(caught, storyMoves(hold));
    const closes = own.events.findLast((e) => e.kind === "rest contact" && e.to === "closed");
    const { least = 0, most = 0, by, relay } = hold?.hold?.margin ?? {};
    expect([by, relay]).toEqual(["K1", "K2"]);
    expect(overlapOf(own, hold)).toMatchObject({
      from: closes?.ms,
      to: (closes?.ms ?? 0) + most,
      surely: (closes?.ms ?? 0) + least,
    });
    expect(overlapOf(own, hold)?.head).toMatch(/^Margin [\d.]+ to [\d.]+\u00a0ms$/);
    expect(firstTerminals(hold)).toEqual(["K2.86"]);
  });

  const examples = rules.find((r) => r.id === "release-overlap")?.examples() ?? [];
  const example = (title: string): Loom => {
    const found = examples.find((e) => e.title.startsWith(title));
    if (found === undefined) throw new Error(`no example ${title}`);
    return found.loom;
  };
  const landed = (of: Timeline, id: string, to: string) =>
    of.events.findLast((e) => e.kind === "latch" && e.id === id && e.to === to)?.ms ?? Number.NaN;

  test("two relays in together: as long as both are in, when a hand turns straight on", () => {
    const loom = example("four relays with diodes");
    const finding = analyse(loom).findings.find((f) => f.id === "release-overlap:K1+K4");
    const own = played(loom, "S1=down", "fastest");
    const overlap = overlapOf(own, finding);
    expect([overlap?.from, overlap?.to]).toEqual([landed(own, "K4", "on"), landed(own, "K1", "off")]);
    expect(overlap?.head).toBe(
      `Together for ${Number((landed(own, "K1", "off") - landed(own, "K4", "on")).toFixed(1))}\u00a0ms`,
    );
    // A slow hand: K1 is out before K4 is in.
    expect(overlapOf(played(loom, "S1=down", "usual"), finding)).toBeUndefined();
  });

  test("a hold just missed: from the relay letting go to the contact that would have caught it", () => {
    const loom = example("a relay that would hold itself through a rest contact");
    const finding = analyse(loom).findings.find((f) => f.rule === "release-overlap");
    const own = played(loom, storyMoves(finding));
    expect(overlapOf(own, finding)).toMatchObject({ from: landed(own, "K2", "off"), head: "To spare 3\u00a0ms" });
  });

  test("a relay called back: until it would have been out", () => {
    // K1 has begun to let go when its feed comes back.
    const own = played(feed, "S1=run, 200ms S1=off, 209ms S1=run");
    const back = own.events.find((e) => e.kind === "recalled" && e.id === "K1");
    expect(back?.dueMs).toBeGreaterThan(back?.ms ?? Number.NaN);
    expect(overlapOf(own, undefined)).toMatchObject({ from: back?.ms, to: back?.dueMs });
  });

  test("nothing, where a hold stands whatever the times", () => {
    const hold = { rule: "self-hold", numbers: [], where: ["K3"] } as unknown as Finding;
    expect(overlapOf(timeline, hold)).toBeUndefined();
  });
});

describe("lines", () => {
  const samples = fc.array(
    fc.tuple(fc.double({ min: 0, max: 40, noNaN: true }), fc.double({ min: -9, max: 9, noNaN: true })),
    { minLength: 1, maxLength: 300 },
  );
  test("are thinned to four points a pixel, and nothing high or low in a pixel is lost", () => {
    fc.assert(
      fc.property(samples, (list) => {
        const sorted = [...list].sort((a, b) => a[0] - b[0]);
        const spots = thinned(
          sorted.map((s) => s[0]),
          sorted.map((s) => s[1]),
          (t) => t,
          (v) => v,
        ).flat();
        const pixels = (of: readonly Spot[]) => {
          const by = new Map<number, Spot[]>();
          for (const s of of) by.set(Math.floor(s.x), [...(by.get(Math.floor(s.x)) ?? []), s]);
          return by;
        };
        const [all, kept] = [pixels(sorted.map(([x, y]) => ({ x, y }))), pixels(spots)];
        expect([...kept.keys()]).toEqual([...all.keys()]);
        for (const [pixel, own] of all) {
          const left = kept.get(pixel) ?? [];
          expect(left.length).toBeLessThanOrEqual(4);
          expect(Math.min(...left.map((s) => s.y))).toBe(Math.min(...own.map((s) => s.y)));
          expect(Math.max(...left.map((s) => s.y))).toBe(Math.max(...own.map((s) => s.y)));
          expect([left[0], left.at(-1)]).toEqual([own[0], own.at(-1)]);
        }
      }),
    );
  });

  test("break where there is no value", () => {
    const lines = thinned(
      [0, 10, 20, 30],
      [1, null, 2, 3],
      (t) => t,
      (v) => v,
    );
    expect(lines.map((l) => l.length)).toEqual([1, 2]);
  });

  test("words stand where the line is not", () => {
    const line = [0, 100, 200].map((x, k) => ({ x, y: k === 2 ? 100 : 50 }));
    const x = freest(line, { y: 50, width: 40, from: 0, to: 200 });
    expect(x).toBeGreaterThan(120);
  });
});

describe("scales", () => {
  test("marks are round, no closer than asked, within the range", () => {
    expect(marksBetween(0, 28, 8)).toEqual([0, 5, 10, 15, 20, 25]);
    expect(marksBetween(0, 0.15, 3)).toEqual([0, 0.05, 0.1, 0.15]);
    expect(marksBetween(-1, 1, 4)).toEqual([-1, -0.5, 0, 0.5, 1]);
    expect(marksBetween(3, 3, 4)).toEqual([]);
  });

  test("a range holds every value and 0; what is hardly below 0 opens no room there", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -500, max: 500, noNaN: true }), { minLength: 1 }), (values) => {
        const { least, most } = rangeOf(values);
        const slack = 0.021 * (most - least);
        expect(least).toBeLessThanOrEqual(0);
        expect(most).toBeGreaterThanOrEqual(0);
        for (const v of values) {
          expect(v).toBeGreaterThanOrEqual(least - slack);
          expect(v).toBeLessThanOrEqual(most + slack);
        }
      }),
    );
    expect(rangeOf([0.148, -1e-6, null])).toEqual({ least: 0, most: 0.15000000000000002 });
  });

  test("the paper is as wide as its box, times the zoom; px and ms are each other's inverse", () => {
    const room = { width: 900, until: 240, isNarrow: false, letters: undefined };
    const one = geometryOf(lanes, { ...room, zoom: 1 });
    expect(one.left + one.width).toBe(900);
    expect(geometryOf(lanes, { ...room, zoom: 4 }).width).toBe(4 * one.width);
    expect(one.msAt(one.x(77))).toBeCloseTo(77, 9);
    expect(one.x(240)).toBeLessThanOrEqual(one.width);
    for (const [k, t] of one.tracks.entries())
      expect(t.top + t.height).toBeLessThanOrEqual(one.tracks[k + 1]?.top ?? one.height);
  });
});
