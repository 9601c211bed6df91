import { layout, readable, scene } from "@loomproof/drawing";
import { resolve } from "@loomproof/netlist";
import { describe, expect, test } from "vitest";
import { inventedMachine, inventedTractor } from "./invented.ts";

// On a screen a drawing is often seen smaller than it is drawn. What is then written must still be legible.

const tractor = resolve(inventedTractor());
const machine = resolve(inventedMachine(6));
const sheets = [
  ["a tractor", scene(tractor, layout(tractor, { starts: 1 }))],
  ["a machine in zones", scene(machine, layout(machine, { starts: 1 }))],
] as const;
const LEAST_PX = 9.9;

describe.each(sheets)("%s", (_, sheet) => {
  test.each([0.12, 0.2, 0.3, 0.5, 0.65, 0.8, 0.94])(
    "at %d of its size no text is small and none on another",
    (zoom) => {
      const { texts } = readable(sheet, zoom);
      expect(Math.min(...texts.map((t) => t.size * zoom))).toBeGreaterThan(LEAST_PX);
      const meeting = texts.filter((p, i) =>
        texts
          .slice(i + 1)
          .some(
            (q) => p.room.x0 < q.room.x1 && q.room.x0 < p.room.x1 && p.room.y0 < q.room.y1 && q.room.y0 < p.room.y1,
          ),
      );
      expect(meeting.map((t) => t.text)).toEqual([]);
    },
  );

  test("at its size it says all that paper says", () => {
    const { texts, larger } = readable(sheet, 1);
    expect(larger).toBe(1);
    for (const t of sheet.texts) expect(texts).toContain(t);
  });
});

test("nearly every part keeps its designation at half its size", () => {
  const [[, sheet]] = sheets;
  const all = sheet.texts.filter((t) => t.role === "designation").length;
  const kept = readable(sheet, 0.5).texts.filter((t) => t.role === "designation").length;
  expect(kept / all).toBeGreaterThan(0.95);
});

test("far off only the zones are named", () => {
  const [, [, sheet]] = sheets;
  const { texts } = readable(sheet, 0.2);
  expect(new Set(texts.map((t) => t.role))).toEqual(new Set(["zone"]));
  expect(texts.length).toBe(sheet.zones.length);
});
