import { expect, test } from "vitest";
import { didYouMeanFamily } from "./family-hint.ts";

test.each([
  ["fuse", '"protector"'],
  ["Pump", '"is": "motor", "kind": "pump"'],
  ["ecu", '"module"'],
  ["bulb", '"lamp"'],
  ["batery", '"battery"'],
])("%s: did you mean %s", (text, hint) => {
  expect(didYouMeanFamily(text)).toBe(` Did you mean ${hint}?`);
});

test("what nothing is called has no hint", () => {
  expect(didYouMeanFamily("gubbins")).toBe("");
});
