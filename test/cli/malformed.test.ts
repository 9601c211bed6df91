import { expect, test } from "vitest";
import { malformed } from "../hostile/malformed.ts";
import { loomproof } from "./run.ts";

const MOST_SECONDS = 1;
const MOST_MEGABYTES = 500;

test.each(malformed)("$name: a clear message, exit 2, quickly and in little memory", ({ text, expects }) => {
  const { code, err, seconds, megabytes } = loomproof(["prove", "-"], text());
  expect(code).toBe(2);
  expect(err).toMatch(expects);
  expect(err.split("\n").length).toBeLessThan(500);
  expect(err).not.toMatch(/\bat .*\.mjs:\d+/);
  expect(megabytes).toBeLessThan(MOST_MEGABYTES);
  expect(seconds).toBeLessThan(MOST_SECONDS);
});
