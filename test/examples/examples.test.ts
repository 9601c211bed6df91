import { analyse, behaviour } from "@loomproof/analyzer";
import { type Loom, parse, write } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { exampleExpects, exampleLoom, exampleNames, exampleText } from "./examples.ts";

const told = (loom: Loom) =>
  analyse(loom)
    .findings.filter((f) => f.under === undefined && f.severity !== "note")
    .map(({ id, severity, strength, consequences }) => ({
      id,
      severity,
      strength,
      comesWithIt: [...consequences].sort(),
    }));

const without = (loom: Loom, wires: readonly string[]): Loom => ({
  ...loom,
  wires: loom.wires.filter((w) => !wires.includes(w.id)),
});

test("there are examples to look at", () => {
  expect(exampleNames.length).toBeGreaterThanOrEqual(2);
});

describe.each(exampleNames)("%s", (name) => {
  test("every danger, fault and caution that is expected, and nothing more", () => {
    expect(told(exampleLoom(name))).toEqual(exampleExpects(name));
  });

  test("is written back as it stands, and everything was looked at", () => {
    const read = parse(write(exampleLoom(name)));
    expect(read.ok && write(read.loom)).toBe(write(exampleLoom(name)));
    expect(analyse(exampleLoom(name)).coverage).toMatchObject({ complete: true, left: [] });
    expect(exampleText(name)).toMatch(/invented/);
  });

  test("every relay comes in in some situation", () => {
    const table = behaviour(exampleLoom(name), Number.POSITIVE_INFINITY);
    const never = table.rows.filter((r) => r.kind === "relay" && !r.cells.includes("on")).map((r) => r.id);
    expect(never).toEqual([]);
  });

  test("every cut that is told ends its hold, and no smaller part of it does", () => {
    const loom = exampleLoom(name);
    for (const f of analyse(loom).findings) {
      const cuts = [...(f.cuts?.harmless ?? []), ...(f.cuts?.breaking ?? [])];
      if (f.rule === "self-hold") expect(cuts.length).toBeGreaterThan(0);
      for (const cut of cuts) {
        const holds = (wires: readonly string[]) => analyse(without(loom, wires)).findings.some((x) => x.id === f.id);
        expect(holds(cut.wires), `${f.id} with ${cut.wires.join(" and ")} open`).toBe(false);
        for (const kept of cut.wires)
          expect(holds(cut.wires.filter((w) => w !== kept)), `${f.id} with all but ${kept}`).toBe(true);
      }
      if (cuts.length > 0 && f.cuts?.harmless.length === 0)
        expect(f.remedy).toContain("No wire can be opened without harm");
    }
  });
});
