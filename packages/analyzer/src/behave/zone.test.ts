import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { around, atLeast, isWithin, keeping, NO_CLOCKS, started, waited, type Zone } from "./zone.ts";

/** Something set on its way by event `by`; it lands as an event of its own, `least` to `most` after that one. */
interface Move {
  readonly by: number;
  readonly least: number;
  readonly most: number;
}

/**
 * The published test, by other means: an order of events is possible if the distance graph of its simple temporal
 * network has no negative cycle. Dechter, Meiri and Pearl, "Temporal constraint networks", Artificial Intelligence 49
 * (1991) (from memory). Events are numbered as they land; 0 is the beginning.
 */
function isPossible(landed: readonly Move[], waiting: readonly Move[]): boolean {
  const count = landed.length + 1;
  // `to` is at most `by` later than `from`.
  const edges: { readonly from: number; readonly to: number; readonly by: number }[] = [];
  landed.forEach(({ by, least, most }, k) => {
    const at = k + 1;
    edges.push({ from: by, to: at, by: most }, { from: at, to: by, by: -least }, { from: at, to: at - 1, by: 0 });
  });
  // What has not landed yet could still do so: the last event was not too late for it.
  for (const { by, most } of waiting) edges.push({ from: by, to: count - 1, by: most });
  const distance = new Array<number>(count).fill(0);
  for (let round = 0; round <= count; round++) {
    let moved = false;
    for (const { from, to, by } of edges)
      if ((distance[from] as number) + by < (distance[to] as number)) {
        distance[to] = (distance[from] as number) + by;
        moved = true;
      }
    if (!moved) return true;
  }
  return false;
}

interface Running {
  readonly move: Move;
  readonly clock: number;
}

/** Lands one of what is running; undefined if the zone knows no time for it. */
function landing(zone: Zone, running: readonly Running[], which: Running): { zone: Zone; left: Running[] } | undefined {
  const most = new Array<number>(zone.size).fill(Number.POSITIVE_INFINITY);
  for (const { clock, move } of running) most[clock] = Math.min(most[clock] as number, move.most);
  const during = waited(zone, most);
  const when = during && atLeast(during, which.clock, which.move.least);
  if (when === undefined) return undefined;
  const rest = running.filter((r) => r !== which);
  const clocks = [...new Set(rest.map((r) => r.clock))].sort((a, b) => a - b);
  return {
    zone: keeping(when, clocks),
    left: rest.map((r) => ({ ...r, clock: clocks.indexOf(r.clock) + 1 })),
  };
}

const span = fc.tuple(fc.nat(12), fc.nat(12)).map(([x, y]) => ({ least: Math.min(x, y), most: Math.max(x, y) }));
/** At each event some more is set on its way, and one of what runs lands. */
const story = fc.array(fc.record({ sets: fc.array(span, { maxLength: 3 }), lands: fc.nat(9) }), {
  minLength: 1,
  maxLength: 6,
});

describe("zones", () => {
  test("an order is possible if and only if its simple temporal network has no negative cycle", () => {
    let possible = 0;
    let impossible = 0;
    fc.assert(
      fc.property(story, (steps) => {
        let zone = NO_CLOCKS;
        let running: Running[] = [];
        const landed: Move[] = [];
        for (const { sets, lands } of steps) {
          if (sets.length > 0) {
            const clock = zone.size;
            zone = started(zone);
            running = [...running, ...sets.map((s) => ({ move: { by: landed.length, ...s }, clock }))];
          }
          const which = running[lands % Math.max(1, running.length)];
          if (which === undefined) return;
          const next = landing(zone, running, which);
          const others = running.flatMap((r) => (r === which ? [] : [r.move]));
          expect(next !== undefined).toBe(isPossible([...landed, which.move], others));
          if (next === undefined) {
            impossible++;
            return;
          }
          possible++;
          zone = next.zone;
          running = next.left;
          landed.push(which.move);
        }
      }),
      { numRuns: 3000 },
    );
    // Both happened often enough to mean something.
    expect(Math.min(possible, impossible)).toBeGreaterThan(300);
  });

  test("what is around two zones holds both", () => {
    const at = (least: number, most: number) => {
      const when = waited(started(NO_CLOCKS), [Number.POSITIVE_INFINITY, most]) as Zone;
      return atLeast(when, 1, least) as Zone;
    };
    const both = around(at(1, 3), at(5, 9));
    expect(isWithin(at(1, 3), both) && isWithin(at(5, 9), both)).toBe(true);
    expect(isWithin(at(4, 4), both)).toBe(true);
    expect(isWithin(at(5, 9), at(1, 3))).toBe(false);
    expect(isWithin(at(0, 4), both)).toBe(false);
  });
});
