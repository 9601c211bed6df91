import { sketch } from "@loomproof/netlist";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compile } from "../circuit/compile.ts";
import { readMoves } from "./read-moves.ts";

const circuit = compile(
  sketch({
    parts: { "G1 battery": {}, "S1 key-switch": {}, "S2 switch": {}, "E1 lamp": {} },
    wires: ["G1.+ S1.30", "S1.15 S2.1", "S2.2 E1.a", "E1.b G1.-"],
  }),
);
const [key, lights] = ["S1", "S2"].map((id) => circuit.inputs.findIndex((i) => i.id === id));
const stand = (input: number | undefined, name: string) => circuit.inputs[input ?? -1]?.stands.indexOf(name);

test("times from the start, rest, and what is set in one breath", () => {
  expect(
    readMoves(circuit, "S1=run, 200ms key=off S2=closed, 0.5 s S2=open, rest S1=run, +5 ms S1=off, S1=run"),
  ).toEqual({
    ok: true,
    moves: [
      { at: 0, input: key, stand: stand(key, "run") },
      { at: 0.2, input: key, stand: stand(key, "off") },
      { at: "at once", input: lights, stand: stand(lights, "closed") },
      { at: 0.5, input: lights, stand: stand(lights, "open") },
      { at: "rest", input: key, stand: stand(key, "run") },
      { at: { later: 0.005 }, input: key, stand: stand(key, "off") },
      { at: "rest", input: key, stand: stand(key, "run") },
    ],
  });
});

describe("refused, with what was expected", () => {
  test.each([
    ["key=go", '"key=go"', "a position of S1 (off, accessories, run, start)"],
    // A transit is a stand, but no position that anybody can set.
    ["S1=run~start", '"S1=run~start"', "a position of S1"],
    ["S1=__proto__", '"S1=__proto__"', "a position of S1"],
    ["S9=on", '"S9"', "S2 (open, closed)"],
    ["soon S1=run", '"soon S1=run"', "a time (200ms, 0.2s, +5ms or rest)"],
    ["-5ms S1=run", '"-5ms S1=run"', "a time (200ms, 0.2s, +5ms or rest)"],
    ["1e9s S1=run", '"1e9s S1=run"', "a time (200ms, 0.2s, +5ms or rest)"],
    ["200ms", '"200ms"', "a time (200ms, 0.2s, +5ms or rest)"],
    ["S1=run,", '""', "a time (200ms, 0.2s, +5ms or rest)"],
    ["", '""', "a time (200ms, 0.2s, +5ms or rest)"],
    ["S1=", '"S1="', "a time (200ms, 0.2s, +5ms or rest)"],
    ["200ms S1=run, 100ms S1=off", '"100ms" after a later time', "times that do not go back"],
    ["9999s S1=run", '"9999s"', "at most an hour"],
    ["S1=run, +9999s S1=off", '"+9999s"', "at most an hour"],
    [Array(300).fill("S1=run").join(","), "201 moves", "at most 200 moves"],
  ])("%s", (text, found, expected) => {
    const read = readMoves(circuit, text);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.found).toBe(found);
    expect(read.expected).toContain(expected);
  });
});

test("any text is read or refused, and nothing else", () => {
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[\dms.,+ =SkeyrunofrestS12]{0,40}$/)), (text) => {
      const read = readMoves(circuit, text);
      if (!read.ok) expect(read.expected.length).toBeGreaterThan(0);
      else for (const m of read.moves) expect(circuit.inputs[m.input]?.stands[m.stand]).toBeDefined();
    }),
    { numRuns: 2000, seed: 20_261_126 },
  );
});
