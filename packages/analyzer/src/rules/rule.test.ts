import { expect, test } from "vitest";
import { toldLater } from "./rule.ts";

const seen = { subjects: ["K1"], run: undefined, at: undefined, ends: undefined };
const told = {
  severity: "fault" as const,
  where: ["K1"],
  path: [],
  title: "K1 holds itself in",
  text: "It stays in.",
  remedy: "Open it.",
  numbers: [],
  harm: false,
};

test("the words of a sighting are worked out when they are asked for, once", () => {
  let times = 0;
  const sighting = toldLater(seen, () => {
    times++;
    return told;
  });
  expect(sighting.subjects).toEqual(["K1"]);
  expect(times).toBe(0);
  expect({ ...sighting }).toEqual({ ...seen, ...told });
  expect(times).toBe(1);
});
