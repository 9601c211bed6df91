import { expect, test } from "vitest";
import type { Dimension } from "./quantity.ts";
import { parseQuantity } from "./quantity.ts";
import { asTyped } from "./typed.ts";

test.each<readonly [string, Dimension, string]>([
  ["7ms", "seconds", "7 ms"],
  ["0,75 mm2", "areaMm2", "0.75 mm2"],
  ["14 awg", "areaMm2", "14 AWG"],
  ["2/0awg", "areaMm2", "2/0 AWG"],
  [" 90 Ω ", "ohms", "90 Ω"],
  ["85 ohms", "ohms", "85 ohm"],
  ["15a", "amps", "15 A"],
  ["30ma", "amps", "30 mA"],
  ["1.2v", "volts", "1.2 V"],
  [".5 m", "metres", ".5 m"],
  ["1e3 ohm", "ohms", "1e3 ohm"],
])("%s in a field of %s is %s, and the file reads it", (typed, dimension, text) => {
  expect(asTyped(typed, dimension)).toEqual({ kind: "quantity", text });
  expect(parseQuantity(text, dimension).ok).toBe(true);
});

test.each<readonly [string, Dimension, readonly string[]]>([
  ["15", "amps", ["15 A", "15 mA"]],
  ["0,5", "metres", ["0.5 m", "0.5 cm"]],
  ["14", "areaMm2", ["14 mm2", "14 AWG"]],
])("a bare %s in a field of %s is offered as %j", (typed, dimension, offers) => {
  expect(asTyped(typed, dimension)).toEqual({ kind: "bare", offers });
});

test.each<readonly [string, Dimension]>([
  ["plenty", "amps"],
  ["7 mm", "ohms"],
  ["5 MOHM", "ohms"],
])("%s in a field of %s goes on to the schema, which refuses it", (typed, dimension) => {
  const read = asTyped(typed, dimension);
  expect(read.kind).toBe("quantity");
  if (read.kind === "quantity") expect(parseQuantity(read.text, dimension).ok).toBe(false);
});
