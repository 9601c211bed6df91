import { readFileSync } from "node:fs";
import { type Loom, parse } from "@loomproof/netlist";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { drag, OnSheet, saved, sheetOf } from "./on-sheet.ts";
import { DESK, drawn, launch, type Opened, openPage, proved } from "./page.ts";

// A hand on a sheet that is drawn already: what it moves, turns and takes away, and what is told while it does.

const read = parse(readFileSync(new URL("../../examples/fuel-feed-cured.loom.json", import.meta.url), "utf8"));
if (!read.ok) throw new Error("the example is no loom");
const example = read.loom;
const begun = sheetOf(example);

let browser: Browser;
let opened: Opened;
let page: Page;
beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
});
beforeEach(async () => {
  opened = await openPage(browser, DESK, "light", "fuel-feed-cured");
  page = opened.page;
  await drawn(page);
});
afterEach(async () => {
  expect(opened.trouble).toEqual([]);
  await page.close();
});

const save = () => saved(page, () => page.keyboard.press("Control+s"));
const placeOf = (loom: Loom, part: string) => loom.drawing?.places?.[part];
const endsOf = ({ wires }: Loom) => wires.map((w) => `${w.id} ${w.from} ${w.to}`);

test("a part is dragged by the mouse, its wires follow, and Undo brings it back", async () => {
  const at = await OnSheet.of(page, example, begun);
  const from = at.part("K5");
  await drag(page, from, { x: from.x + 60, y: from.y + 30 });
  const after = await save();
  const [x = 0, y = 0] = placeOf(after, "K5")?.at ?? [];
  const was = placeAtFirst("K5");
  expect(x - was.x).toBeGreaterThan(4);
  expect(y - was.y).toBeGreaterThan(2);
  expect(endsOf(after)).toEqual(endsOf(example));
  await page.keyboard.press("Control+z");
  // The example came without a drawing.
  expect((await save()).drawing).toBeUndefined();
});

/** Where the sheet as laid out has a part, units. */
function placeAtFirst(part: string): { readonly x: number; readonly y: number } {
  const symbol = begun.symbols.find((s) => s.part === part);
  if (symbol === undefined) throw new Error(`${part} is not on the sheet`);
  return { x: (symbol.x + begun.origin.x) / 10, y: (symbol.y + begun.origin.y) / 10 };
}

test("picked by a click, a part is moved by arrows, turned, mirrored and deleted by keys; what went with it is told", async () => {
  const at = await OnSheet.of(page, example, begun);
  const spot = at.part("K5");
  await page.mouse.click(spot.x, spot.y);
  await expect(page.getByRole("textbox", { name: "Designation" }).inputValue()).resolves.toBe("K5");
  await page.locator(".sheet").focus();
  const places: string[] = [];
  for (const key of ["ArrowRight", "r", "m"]) {
    await page.keyboard.press(key);
    places.push(JSON.stringify(placeOf(await save(), "K5")));
  }
  expect(new Set(places).size).toBe(3);
  await page.keyboard.press("Delete");
  await page.getByText(/^K5 is deleted, and with it W\d+/).waitFor();
  expect((await save()).parts.some((p) => p.id === "K5")).toBe(false);
  await page.keyboard.press("Control+z");
  expect(endsOf(await save())).toEqual(endsOf(example));
});

test("a move does not check again; a value does, and until then what is touched says of when it is", async () => {
  await proved(page);
  const at = await OnSheet.of(page, example, begun);
  const spot = at.part("K5");
  await page.mouse.click(spot.x, spot.y);
  await page.locator(".sheet").focus();
  await page.keyboard.press("ArrowRight");
  await page.waitForTimeout(600);
  expect(await page.getByText("Checking again").count()).toBe(0);
  await page.getByLabel("Coil", { exact: true }).fill("60 ohm");
  await page.keyboard.press("Enter");
  await page.getByText("Checking again").waitFor();
  await page.locator('.margin[aria-busy="false"]').waitFor({ timeout: 60_000 });
  expect(await page.getByText("Checking again").count()).toBe(0);
});

test("Arrange lays the sheet out afresh, as a step that Undo takes back", async () => {
  const at = await OnSheet.of(page, example, begun);
  const from = at.part("E3");
  await drag(page, from, { x: from.x - 120, y: from.y });
  const moved = placeOf(await save(), "E3")?.at;
  await page.getByRole("button", { name: "Arrange" }).click();
  await page.getByRole("button", { name: "Undo: Arranged" }).waitFor({ timeout: 30_000 });
  expect(placeOf(await save(), "E3")?.at).not.toEqual(moved);
  await page.keyboard.press("Control+z");
  expect(placeOf(await save(), "E3")?.at).toEqual(moved);
});
