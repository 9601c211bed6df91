import { expect, test } from "vitest";
import { rules } from "../rules/index.ts";
import { analyse, analyseInSlices } from "./analyse.ts";

const faulty = rules.find((r) => r.id === "self-hold")?.examples[0]?.loom;
if (faulty === undefined) throw new Error("self-hold has no example");

test("slices say what is looked at, always further on, and end with the same report", () => {
  const said: string[] = [];
  const done: number[] = [];
  const slices = analyseInSlices(faulty);
  let next = slices.next();
  for (; !next.done; next = slices.next()) {
    said.push(next.value.says);
    done.push(next.value.done);
  }
  expect(said).toContain("Every switch position, in every order: as usual");
  expect(said).toContain("Every switch position, in every order: cold, with a full battery");
  expect(said.some((s) => s.startsWith("What ends it: "))).toBe(true);
  expect(done).toEqual(done.toSorted((a, b) => a - b));
  expect(done.every((d) => d >= 0 && d < 1)).toBe(true);
  expect(next.value).toEqual(analyse(faulty));
});

test("nothing is computed before the first slice is asked for, and none after the last that was", () => {
  const slices = analyseInSlices(faulty);
  expect(slices.next().done).toBe(false);
  expect(slices.return(analyse(faulty)).done).toBe(true);
  expect(slices.next().done).toBe(true);
});
