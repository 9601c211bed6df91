import { drawingOf, layout, mirrored, moved, type Placed, put, scene, spliced, turned } from "@loomproof/drawing";
import { type DrawingText, type Loom, loomSchema, parse, type ResolvedLoom, resolve, write } from "@loomproof/netlist";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { exampleLoom } from "../examples/examples.ts";
import { bySet, hasWire, joinedIn, readBack } from "./read-back.ts";

// What a hand does to a drawing: whatever it does, every wire is drawn and joins what it should, and the file gives the
// same drawing again.

interface Sheet {
  readonly loom: Loom;
  readonly resolved: ResolvedLoom;
  readonly drawing: DrawingText;
  readonly placed: Placed;
}

function sheetOf(loom: Loom, drawing: DrawingText | undefined): Sheet {
  const resolved = resolve(loom);
  const placed = layout(resolved, { drawing, starts: 1 });
  return { loom, resolved, placed, drawing: drawingOf(placed) };
}

const first = sheetOf(exampleLoom("fuel-feed"), undefined);

interface Stroke {
  readonly what: "move" | "turn" | "mirror" | "put" | "splice";
  readonly which: number;
  readonly dx: number;
  readonly dy: number;
}

const strokes = fc.array(
  fc.record<Stroke>({
    what: fc.constantFrom("move", "move", "turn", "mirror", "put", "splice"),
    which: fc.nat(1000),
    dx: fc.integer({ min: -30, max: 30 }),
    dy: fc.integer({ min: -30, max: 30 }),
  }),
  { minLength: 6, maxLength: 6 },
);

function stroked({ loom, resolved, drawing, placed }: Sheet, { what, which, dx, dy }: Stroke, n: number): Sheet {
  const boxes = [...placed.frame.boxes.keys(), ...placed.frame.bars.keys()];
  const box = boxes[which % boxes.length] ?? "";
  switch (what) {
    case "move":
      return sheetOf(loom, moved(placed, drawing, box, dx, dy));
    case "turn":
      return sheetOf(loom, turned(placed, drawing, box));
    case "mirror":
      return sheetOf(loom, mirrored(placed, drawing, box));
    case "put": {
      const now = loomSchema.parse({ ...loom, parts: [...loom.parts, { id: `E9${n}`, is: "lamp" }] });
      return sheetOf(now, put(resolve(now), placed, drawing, `E9${n}`, { x: 40 + dx, y: 40 + dy }, dx > 0));
    }
    case "splice": {
      const wire = resolved.wires[which % resolved.wires.length];
      if (wire === undefined) throw new Error("no wire");
      const far = loom.wires.find((w) => w.id === wire.id)?.to;
      const at = placed.routed.wires.get(wire.id)?.[0] ?? { x: 0, y: 0 };
      const now = loomSchema.parse({
        ...loom,
        parts: [...loom.parts, { id: `XS9${n}`, is: "splice" }],
        wires: [
          ...loom.wires.map((w) => (w.id === wire.id ? { ...w, to: `XS9${n}.1` } : w)),
          { id: `W9${n}`, from: `XS9${n}.1`, to: far },
        ],
      });
      return sheetOf(now, spliced(placed, drawing, wire.id, { x: at.x + dx, y: at.y + dy }, `XS9${n}`, `W9${n}`));
    }
    default:
      return what satisfies never;
  }
}

function isCrowded({ placed }: Sheet): boolean {
  const rooms = [...placed.frame.boxes.values()].map((b) => b.room);
  const meet = (p: (typeof rooms)[number], q: typeof p) => p.x0 < q.x1 && q.x0 < p.x1 && p.y0 < q.y1 && q.y0 < p.y1;
  return placed.routed.pressed > 0 || rooms.some((p, i) => rooms.some((q, j) => j > i && meet(p, q)));
}

describe("a hand moves, turns, mirrors, puts and splices at random", () => {
  test("every wire still joins what it should, and the file keeps the drawing", () => {
    let [crowded, drawings] = [0, 0];
    fc.assert(
      fc.property(strokes, (list) => {
        let sheet = first;
        for (const [n, stroke] of list.entries()) {
          sheet = stroked(sheet, stroke, n);
          const drawn = scene(sheet.resolved, sheet.placed);
          expect(drawn.wires.length).toBe(sheet.resolved.wires.length);
          // Where things stand on each other, or a wire found no way, the picture cannot be read back.
          if (isCrowded(sheet)) crowded++;
          else expect(bySet(readBack(drawn).filter(hasWire))).toEqual(bySet(joinedIn(sheet.resolved, drawn)));
          drawings++;
          const read = parse(write({ ...sheet.loom, drawing: sheet.drawing }));
          if (!read.ok) throw new Error(JSON.stringify(read.problems));
          expect(drawingOf(layout(resolve(read.loom), { drawing: read.loom.drawing }))).toEqual(sheet.drawing);
        }
      }),
      { seed: 4, numRuns: 25, endOnFailure: true },
    );
    expect(crowded / drawings).toBeLessThan(0.15);
  });

  test("what is not touched stays where it is", () => {
    const now = sheetOf(first.loom, moved(first.placed, first.drawing, "K5", 12, 3));
    const still = Object.entries(first.drawing.places ?? {}).filter(
      ([id, { at }]) => now.drawing.places?.[id]?.at.join() === at.join(),
    );
    expect(Object.keys(first.drawing.places ?? {}).length - still.length).toBe(1);
    expect(now.drawing.places?.K5?.at).toEqual(first.drawing.places?.K5?.at.map((v, i) => v + (i === 0 ? 12 : 3)));
  });

  test("moved there and back, a part stands as it stood", () => {
    const there = sheetOf(first.loom, moved(first.placed, first.drawing, "K5", 12, 3));
    const back = sheetOf(first.loom, moved(there.placed, there.drawing, "K5", -12, -3));
    expect(back.drawing.places?.K5?.at).toEqual(first.drawing.places?.K5?.at);
  });
});
