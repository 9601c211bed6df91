import { readFileSync } from "node:fs";
import { BEGUN_SHEET, layout, type Scene, scene } from "@loomproof/drawing";
import { type Loom, parse, resolve } from "@loomproof/netlist";
import type { Page } from "playwright-core";

// Where things stand on the screen. The sheet is pixels: what a person sees there is worked out here from the saved file,
// by the same layout and the same camera.

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Saves the loom, as a person would: the browser that is driven shows no dialog, so the file is a download. */
export async function saved(page: Page, press: () => Promise<void>): Promise<Loom> {
  const coming = page.waitForEvent("download");
  await press();
  const read = parse(readFileSync(await (await coming).path(), "utf8"));
  if (!read.ok) throw new Error(`what was saved is no loom: ${read.problems[0]?.says}`);
  return read.loom;
}

type Sheet = Pick<Scene, "width" | "height" | "origin">;

/** The sheet of a loom, with its drawing or laid out afresh. */
export function sheetOf(loom: Loom): Scene {
  const resolved = resolve(loom);
  return scene(resolved, layout(resolved, { drawing: loom.drawing }), {}, BEGUN_SHEET);
}

/** Left free around a sheet that is fitted, px. */
const AIR = 12;

/** The drawing of a saved loom as it stands on the screen, as long as nobody has moved the sheet. */
export class OnSheet {
  readonly #scene: Scene;
  readonly #at: Spot;
  readonly #scale: number;

  private constructor(drawn: Scene, at: Spot, scale: number) {
    this.#scene = drawn;
    this.#at = at;
    this.#scale = scale;
  }

  /** @param begun the sheet as it was when it was opened and fitted: blank, unless it is said */
  static async of(page: Page, loom: Loom, begun: Sheet = BEGUN_SHEET): Promise<OnSheet> {
    const drawn = sheetOf(loom);
    const box = await page.locator(".sheet").boundingBox();
    const frame = await page.locator(".sheet").evaluate((s) => ({ width: s.clientWidth, height: s.clientHeight }));
    if (box === null) throw new Error("no sheet");
    // The sheet was fitted with a little air when it was opened, and what is on it has lain still since.
    const scale = Math.min((frame.width - AIR) / begun.width, (frame.height - AIR) / begun.height);
    const x = (frame.width - begun.width * scale) / 2 + (drawn.origin.x - begun.origin.x) * scale;
    const y = (frame.height - begun.height * scale) / 2 + (drawn.origin.y - begun.origin.y) * scale;
    // Its border is one px wide.
    return new OnSheet(drawn, { x: box.x + 1 + x, y: box.y + 1 + y }, scale);
  }

  #screen({ x, y }: Spot): Spot {
    return { x: this.#at.x + x * this.#scale, y: this.#at.y + y * this.#scale };
  }

  terminal(id: string): Spot {
    const dot = this.#scene.dots.find(
      (d) => d.id === id || (id.endsWith(".1") && d.id.startsWith(`${id.slice(0, -2)} `)),
    );
    if (dot === undefined) throw new Error(`${id} is not on the sheet`);
    return this.#screen(dot.at);
  }

  part(id: string): Spot {
    const room = this.#scene.symbols.find((s) => s.part === id)?.room;
    if (room === undefined) throw new Error(`${id} is not on the sheet`);
    return this.#screen({ x: (room.x0 + room.x1) / 2, y: (room.y0 + room.y1) / 2 });
  }

  /** The middle of the longest run of a wire. */
  wire(id: string): Spot {
    const points = this.#scene.wires.find((w) => w.id === id)?.points ?? [];
    const runs = points.slice(1).map((b, i) => ({ a: points[i] ?? b, b }));
    const length = ({ a, b }: (typeof runs)[number]) => Math.hypot(a.x - b.x, a.y - b.y);
    const [longest] = runs.toSorted((p, q) => length(q) - length(p));
    if (longest === undefined) throw new Error(`${id} is not on the sheet`);
    return this.#screen({ x: (longest.a.x + longest.b.x) / 2, y: (longest.a.y + longest.b.y) / 2 });
  }
}

export async function drag(page: Page, from: Spot, to: Spot): Promise<void> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move((from.x + to.x) / 2, (from.y + to.y) / 2, { steps: 3 });
  await page.mouse.move(to.x, to.y, { steps: 3 });
  await page.mouse.up();
}
