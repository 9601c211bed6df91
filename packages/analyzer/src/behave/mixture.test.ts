import { describe, expect, test } from "vitest";
import { ALL_OPEN, allClosed, conducts, everyWay, flipped, flipping } from "./mixture.ts";

const pattern = (count: number, way: number): string =>
  Array.from({ length: count }, (_, one) => (conducts(count, way, one) ? "1" : "0")).join("");

describe("the ways in which undecided elements are tried", () => {
  test.each([0, 1, 3, 4, 5, 9, 80])("with %i of them no two ways are the same", (count) => {
    const ways = everyWay(count);
    expect(new Set(ways.map((w) => pattern(count, w))).size).toBe(ways.length);
    expect(pattern(count, ALL_OPEN)).toBe("0".repeat(count));
    expect(pattern(count, allClosed(count))).toBe("1".repeat(count));
  });

  test.each([1, 4, 5, 60])("with %i of them the other way differs in one, and back again is where it was", (count) => {
    for (const way of everyWay(count))
      for (let one = 0; one < count; one++) {
        const other = flipped(count, way, one);
        if (other === -1) continue;
        const differing = [...pattern(count, way)].flatMap((c, i) => (c === pattern(count, other)[i] ? [] : [i]));
        expect(differing).toEqual([one]);
        expect(flipped(count, other, one)).toBe(way);
      }
  });

  test("each is tried alone against all open and against all closed", () => {
    const ways = flipping(7, [2, 5]).map((w) => pattern(7, w));
    expect(ways).toEqual(["0000000", "1111111", "0010000", "1101111", "0000010", "1111101"]);
  });
});
