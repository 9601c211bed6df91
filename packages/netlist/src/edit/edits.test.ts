import { describe, expect, test } from "vitest";
import { parse } from "../loom/parse.ts";
import type { Loom } from "../loom/schema.ts";
import { sketch } from "../loom/sketch.ts";
import { write } from "../loom/write.ts";
import { namedLoom } from "../testing/named-loom.ts";
import { connect, whyNotConnect } from "./connect.ts";
import { nextDesignation, nextWireNumber } from "./designation.ts";
import { newPart } from "./new-part.ts";
import { setValue } from "./parts.ts";
import { addPin, removePin, renamePin, setPin } from "./pins.ts";
import { removePartAndWires } from "./remove.ts";
import { renamePart, renameWire } from "./rename.ts";
import { spliceInto, whyNotSplice } from "./splice.ts";

const base = namedLoom;
const readsBack = (loom: Loom) => expect(parse(write(loom)).problems).toEqual([]);

test("the base of these tests is a loom", () => readsBack(base));

describe("designations", () => {
  test.each([
    ["relay", undefined, "K2"],
    ["lamp", "filament", "E2"],
    ["lamp", "indicator", "P1"],
    ["splice", undefined, "XS1"],
    ["ground-point", undefined, "XE2"],
    ["connector", undefined, "X1"],
    ["alternator", undefined, "G3"],
  ] as const)("the next %s %s is %s", (family, kind, id) => {
    expect(nextDesignation(base, family, kind)).toBe(id);
  });

  test("a number given up is not given again, and other kinds of names do not count", () => {
    const gapped = sketch({ parts: { "K1 relay": {}, "K7 relay": {}, "K7a relay": {}, "KX9 relay": {} }, wires: [] });
    expect(nextDesignation(gapped, "relay")).toBe("K8");
    expect(nextWireNumber(base)).toBe("W8");
  });

  test("what a wire, a definition or the world is called is taken too", () => {
    const odd = { ...base, world: [{ id: "K5", values: ["a", "b"], usual: "a" }] };
    expect(nextDesignation(odd, "relay")).toBe("K6");
  });
});

describe("new parts", () => {
  test("a part says what it is and leaves its values to the catalogue", () => {
    const { loom, id } = newPart(base, "relay", "changeover");
    expect(loom.parts.at(-1)).toEqual({ id, is: "relay", kind: "changeover" });
  });

  test("each module has a definition of its own, under a name that is free", () => {
    const one = newPart(base, "module", undefined, "@power-module");
    const two = newPart(one.loom, "module", undefined, "@power-module");
    expect(two.loom.definitions.map((d) => d.id)).toEqual(["box", "power-module", "power-module-2"]);
    expect(two.loom.parts.at(-1)).toEqual({ id: "A3", is: "module", of: "power-module-2" });
    readsBack(two.loom);
  });

  test("a second module after a definition of the loom shares it", () => {
    expect(newPart(base, "module", undefined, "box").loom.definitions).toBe(base.definitions);
  });
});

describe("new wires", () => {
  test("size and colour are those of the wires already there, the length is open", () => {
    const { loom, wire } = connect(base, "S1.2", "A1.4");
    expect(loom.wires.at(-1)).toEqual({ id: wire, from: "S1.2", to: "A1.4", size: "1 mm2" });
  });

  test("wires that differ tell nothing", () => {
    const mixed = { ...base, wires: base.wires.map((w) => (w.id === "W2" ? { ...w, size: "4 mm2" } : w)) };
    expect(connect(mixed, "F1.b", "A1.1").loom.wires.at(-1)).toEqual({ id: "W8", from: "F1.b", to: "A1.1" });
  });

  test("a joint goes by its name alone", () => {
    expect(connect(base, "A1.2", "XE1.1").loom.wires.at(-1)).toMatchObject({ to: "XE1" });
  });

  test("not from a terminal to itself, nor what there is already", () => {
    expect(whyNotConnect(base, "XE1", "XE1.1")).toBe("Both ends are XE1; a wire needs two.");
    expect(whyNotConnect(base, "K1.86", "S1.2")).toBe("W3 already goes from S1.2 to K1.86.");
    expect(whyNotConnect(base, "K1.86", "S1.1")).toBeUndefined();
  });
});

describe("a splice in a wire", () => {
  const { loom, splice, wires } = spliceInto(base, "W3", "A1.4");
  const wire = (id: string) => loom.wires.find((w) => w.id === id);

  test("three wires meet there, their kind kept, their lengths open", () => {
    expect(wire("W3")).toEqual({ id: "W3", from: "S1.2", to: splice, size: "1 mm2" });
    expect(wire(wires[0])).toEqual({ id: "W8", from: "XS1", to: "K1.86", size: "1 mm2" });
    expect(wire(wires[1])).toEqual({ id: "W9", from: "XS1", to: "A1.4", size: "1 mm2" });
    readsBack(loom);
  });

  test("the old route is gone", () => expect(loom.drawing?.routes).toBeUndefined());

  test("not to an end that the wire has", () => {
    expect(whyNotSplice(base, "W3", "K1.86")).toBe("W3 already ends at K1.86.");
    expect(whyNotSplice(base, "W3", "A1.4")).toBeUndefined();
  });
});

describe("taking a part away", () => {
  test("its wires go, and where they still end is said", () => {
    const { loom, gone, also } = removePartAndWires(base, "K1");
    expect(gone).toEqual([
      { wire: "W3", farEnd: "S1.2" },
      { wire: "W4", farEnd: "A1.3" },
      { wire: "W5", farEnd: "F1.b" },
      { wire: "W6", farEnd: "E1.a" },
    ]);
    expect(also).toEqual([
      "what S1 says of it",
      "what ENG says of it",
      "the wish pulls",
      "that seal is meant",
      "that open-end:K1.87 was accepted",
      'the remark r1 ("Which size?")',
    ]);
    expect(loom.drawing).toBeUndefined();
    expect(write(loom)).not.toMatch(/K1/);
    readsBack(loom);
  });

  test("a switch takes the wishes and the logic that ask it along", () => {
    const { loom, also } = removePartAndWires(base, "S1");
    expect(also).toEqual([
      "logic of box that asks it",
      "that cold moves it",
      "what can never be together (both)",
      "the wish lit",
      "the wish pulls",
      'the remark r1 ("Which size?")',
    ]);
    expect(loom.definitions[0]?.logic?.awake).toEqual([{ pin: { "4": "active" } }]);
    readsBack(loom);
  });

  test("the last module after a definition takes it along; the battery the reference", () => {
    expect(removePartAndWires(base, "A1").loom.definitions).toEqual([]);
    expect(removePartAndWires(base, "G1").loom.system.reference).toBeUndefined();
    expect(removePartAndWires(base, "XE1").loom.parts.find((p) => p.id === "E1")?.case).toBeUndefined();
  });
});

describe("names", () => {
  test("a wire under another number, and back", () => {
    const renamed = renameWire(base, "W3", "W33");
    expect(write(renamed)).not.toMatch(/"W3"/);
    expect(write(renameWire(renamed, "W33", "W3"))).toBe(write(base));
  });

  test("what a wire, a definition or the world is called is not free", () => {
    expect(() => renamePart(base, "K1", "W1")).toThrow("W1 is there already");
    expect(() => renameWire(base, "W1", "cold")).toThrow("cold is there already");
  });
});

describe("pins of a definition", () => {
  test("a value set and taken away again gives the same text", () => {
    const set = setPin(base, "box", "4", "wants", "ground");
    expect(set.definitions[0]?.pins[3]).toEqual({ pin: "4", name: "wake", kind: "input", wants: "ground" });
    expect(write(setPin(set, "box", "4", "wants", undefined))).toBe(write(base));
  });

  test("a pin that goes takes its wires and what names it; a clamp to it is unknown", () => {
    const { loom, wires } = removePin(base, "box", "3");
    expect(wires).toEqual(["W4"]);
    expect(loom.definitions[0]?.logic?.on).toEqual({});
    const clampless = removePin(base, "box", "4").loom.definitions[0];
    expect(clampless?.pins[2]).toEqual({ pin: "3", kind: "low-side", clamp: "unknown" });
    expect(clampless?.logic?.awake).toEqual([{ input: { S1: "closed" } }]);
    readsBack(removePin(base, "box", "1").loom);
  });

  test("a pin under another number, and back", () => {
    const renamed = renamePin(renamePin(base, "box", "3", "C3"), "box", "4", "C4");
    expect(renamed.wires.find((w) => w.id === "W4")?.to).toBe("A1.C3");
    readsBack(renamed);
    expect(write(renamePin(renamePin(renamed, "box", "C4", "4"), "box", "C3", "3"))).toBe(write(base));
  });

  test("a new pin has the next number", () => expect(addPin(base, "box").pin).toBe("6"));

  test("the gate refuses what the schema does not know", () => {
    const bad = parse(write(setValue(base, "K1", "coil", "7 mm")));
    expect(bad.problems[0]?.says).toMatch(/^"coil" of K1 is "7 mm"; it must be a value with its unit/);
  });
});
