import { describe, expect, test } from "vitest";
import { Camera } from "./camera.ts";

const NOWHERE = { x: 0, y: 0 };

function camera(frame = { width: 1000, height: 600 }, content = { width: 2000, height: 1000 }): Camera {
  const made = new Camera();
  made.setFrame(frame);
  made.setContent({ ...content, origin: NOWHERE });
  return made;
}

/** Where a spot of the drawing stands in the frame. */
const seen = ({ view }: Camera, x: number, y: number) => ({
  x: view.x + view.scale * x,
  y: view.y + view.scale * y,
});

describe("a camera", () => {
  test("fits the whole drawing, in the middle", () => {
    const c = camera();
    const [a, b] = [seen(c, 0, 0), seen(c, 2000, 1000)];
    expect(a.x).toBeGreaterThanOrEqual(0);
    expect(a.y).toBeGreaterThanOrEqual(0);
    expect(b.x).toBeLessThanOrEqual(1000);
    expect(b.y).toBeLessThanOrEqual(600);
    expect(a.x + b.x).toBeCloseTo(1000);
    expect(a.y + b.y).toBeCloseTo(600);
  });

  test("fits again when the frame changes, until a person moves the drawing", () => {
    const c = camera();
    const before = c.view.scale;
    c.setFrame({ width: 500, height: 300 });
    expect(c.view.scale).toBeLessThan(before);
    c.pan(10, 0);
    const moved = c.view;
    c.setFrame({ width: 900, height: 500 });
    expect(c.view).toEqual(moved);
  });

  test("zooms about the spot under the pointer", () => {
    const c = camera();
    const at = { x: 300, y: 200 };
    const spot = { x: (at.x - c.view.x) / c.view.scale, y: (at.y - c.view.y) / c.view.scale };
    c.zoomAt(1.7, at.x, at.y);
    const now = seen(c, spot.x, spot.y);
    expect(now.x).toBeCloseTo(at.x);
    expect(now.y).toBeCloseTo(at.y);
  });

  test("shows an area whole where that can be followed, else its heart at a size that can be read", () => {
    const c = camera();
    const heart = { x0: 100, x1: 100, y0: 100, y1: 100 };
    c.show({ x0: 0, x1: 1000, y0: 0, y1: 800 }, heart);
    expect(c.view.scale).toBeLessThan(1);
    expect(seen(c, 1000, 800).y).toBeLessThanOrEqual(600);
    c.setContent({ width: 9000, height: 9000, origin: NOWHERE });
    c.show({ x0: 0, x1: 8000, y0: 0, y1: 8000 }, heart);
    expect(c.view.scale).toBe(1);
    const { x, y } = seen(c, 100, 100);
    expect(x > 0 && x < 1000 && y > 0 && y < 600).toBe(true);
    c.show({ x0: 0, x1: 8000, y0: 0, y1: 8000 }, { x0: 4000, x1: 4000, y0: 3000, y1: 3000 });
    expect(seen(c, 4000, 3000)).toEqual({ x: 500, y: 300 });
  });

  test("shows nothing beside the paper as long as there is paper to show", () => {
    const c = camera();
    const corner = { x0: 0, x1: 800, y0: 0, y1: 300 };
    c.show(corner, corner);
    expect(seen(c, 0, 0).x).toBeLessThan(10);
    expect(seen(c, 0, 0).y).toBeLessThan(10);
    c.setContent({ width: 900, height: 500, origin: NOWHERE });
    c.show(corner, corner);
    const [a, b] = [seen(c, 0, 0), seen(c, 900, 500)];
    expect(b.x - a.x > 1000 || Math.abs(a.x + b.x - 1000) < 1e-6).toBe(true);
  });

  test("never loses the drawing, however far it is dragged", () => {
    const c = camera();
    for (let i = 0; i < 50; i++) c.pan(-500, 700);
    expect(seen(c, 2000, 0).x).toBeGreaterThan(0);
    expect(seen(c, 0, 0).y).toBeLessThan(600);
  });

  test("survives a frame without any room", () => {
    const c = camera({ width: 0, height: 0 });
    c.fit();
    c.zoomBy(1.25);
    c.show({ x0: 0, x1: 0, y0: 0, y1: 0 }, { x0: 0, x1: 0, y0: 0, y1: 0 });
    expect(Object.values(c.view).every(Number.isFinite)).toBe(true);
    c.setFrame({ width: 800, height: 600 });
    expect(seen(c, 0, 0).x >= 0 && seen(c, 0, 0).x < 800).toBe(true);
  });
});

test("an edit that makes the sheet larger leaves what is seen where it is", () => {
  const c = camera();
  c.zoomAt(1.5, 300, 200);
  const before = seen(c, 700, 400);
  // Room came at the left and at the top: the same spot lies further in.
  c.setContent({ width: 2300, height: 1100, origin: { x: -300, y: -100 } }, true);
  const after = seen(c, 1000, 500);
  expect(after.x).toBeCloseTo(before.x, 6);
  expect(after.y).toBeCloseTo(before.y, 6);
});
