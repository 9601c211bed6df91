import fc from "fast-check";
import { expect, test } from "vitest";
import { travelOf } from "./travel.ts";

const seconds = fc.integer({ min: 0, max: 500_000 }).map((tenths) => tenths / 1e7);
const span = fc.tuple(seconds, seconds).map(([x, y]) => ({ least: Math.min(x, y), most: Math.max(x, y) }));
const point = seconds.map((x) => ({ least: x, most: x }));
const times = fc.record({
  operateTime: fc.oneof(span, point),
  releaseTime: fc.oneof(span, point),
  transit: fc.oneof(span, point),
});

test("no time begins after it ends, and the parts of a way make the whole", () => {
  fc.assert(
    fc.property(times, fc.constantFrom("make", "rest", "both"), (given, sides) => {
      const { onTime, offTime, arrives } = travelOf(sides, given);
      const ways = arrives === undefined ? [] : [arrives.on, arrives.off];
      for (const { least, most } of [onTime, offTime, ...ways.flatMap((w) => [w.inAll, w.inAir])])
        expect(least).toBeLessThanOrEqual(most);
      for (const [leaves, way] of [
        [onTime, arrives?.on],
        [offTime, arrives?.off],
      ] as const) {
        if (way === undefined) continue;
        expect(leaves.most + way.inAir.least).toBeCloseTo(way.inAll.most, 9);
        expect(leaves.least + way.inAir.most).toBeGreaterThanOrEqual(way.inAll.least - 1.1e-6);
        expect(leaves.least).toBeGreaterThanOrEqual(0);
      }
    }),
    { numRuns: 2000, seed: 20_261_126 },
  );
});
