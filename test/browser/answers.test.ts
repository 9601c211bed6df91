import { behaviourSchema } from "@loomproof/cli";
import { THEMES } from "@loomproof/drawing";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { loomproof } from "../cli/run.ts";
import { DESK, launch, type Opened, openPage, proved, seen } from "./page.ts";

const { out } = loomproof(["behave", "--json", "--all", "examples/fuel-feed.loom.json"]);
const told = behaviourSchema.parse(JSON.parse(out));

// Proved once: every test goes on where the one before has left the page.
let browser: Browser;
let opened: Opened;
let page: Page;
beforeAll(async () => {
  browser = await launch();
  opened = await openPage(browser, DESK, "light", "fuel-feed");
  page = opened.page;
  await proved(page);
  await page.getByRole("tab", { name: "Behaviour" }).click();
  await page.locator(".behaviour-table").waitFor();
});
afterAll(async () => {
  await browser?.close();
});

const cell = (row: string, at: number) => page.locator(`[data-cell="${row} ${at}"]`);
const filled = () => page.locator(".tray.filled").count();

test("the cells are those of behave --json, and so is what is not as wanted", async () => {
  const amps = (a: number) =>
    a < 1 ? `${Number((a * 1000).toPrecision(3))}\u00a0mA` : `${Number(a.toPrecision(3))}\u00a0A`;
  const cells = await page
    .locator("[data-cell]")
    .evaluateAll((all) =>
      all.map((c) => [c.dataset.cell, c.dataset.says, c.closest("td")?.classList.contains("against")]),
    );
  const wanted = told.rows.flatMap((row) =>
    row.cells.map((c, at) => [
      `${row.id} ${at}`,
      typeof c === "number" ? amps(c) : c === "held" ? "held in" : c,
      told.situations[at]?.against.some((a) => a.row === row.id),
    ]),
  );
  expect(cells).toEqual(wanted);
  await expect(page.locator(".verdict.not-so").allTextContents()).resolves.toEqual(
    told.intents
      .filter((i) => i.verdict === "not met")
      .map((i) => (i.strength === "possible" ? "may not be so" : "not so")),
  );
});

test("it is a table to whoever listens: rows and situations have heads, every cell says all", async () => {
  const table = page.getByRole("table", { name: "What is on in which situation" });
  await expect(table.getByRole("rowheader").count()).resolves.toBe(told.rows.length);
  await expect(table.getByRole("columnheader", { name: "Lights closed" }).count()).resolves.toBe(2);
  await table
    .getByRole("button", { name: "Lift pump M1, Key off, after run: K2 and K3 still in: is on, not as you want it" })
    .waitFor();
});

test("a cell is picked, walked from with arrows and told at the foot", async () => {
  await cell("M1", 0).click();
  await page.keyboard.press("ArrowRight");
  const foot = page.locator(".cell-foot");
  await foot.getByText("Two things are not as you want them.").waitFor();
  await foot.getByText("Lift pump M1 is on. You want: only with Key run or start.").waitFor();
  await expect(cell("M1", 1).evaluate((e) => e === document.activeElement)).resolves.toBe(true);
  // One stop of the keyboard, however many cells there are.
  await expect(page.locator('[data-cell][tabindex="0"]').count()).resolves.toBe(1);
});

test("the tab again fills the page, Esc brings the drawing back", async () => {
  const tab = page.getByRole("tab", { name: "Behaviour" });
  await tab.click();
  await expect(filled()).resolves.toBe(1);
  await expect(page.locator(".sheet").isVisible()).resolves.toBe(false);
  await page.keyboard.press("Escape");
  await expect(filled()).resolves.toBe(0);
  await expect(page.locator(".sheet").isVisible()).resolves.toBe(true);
});

test("the situation is shown on the drawing: sleeves everywhere, a ring, and in words which it is", async () => {
  const { feed, between, danger } = THEMES.light;
  await expect(seen(page, feed)).resolves.toMatchObject({ count: 0 });
  await page.getByRole("button", { name: "Show on the drawing" }).click();
  const standing = page.locator(".standing");
  await standing.getByText("Key off, after run: K2 and K3 still in").waitFor();
  await page.waitForTimeout(300);
  for (const colour of [feed, between, danger]) expect((await seen(page, colour)).count).toBeGreaterThan(50);
  await standing.getByRole("button", { name: "Done" }).click();
  await page.waitForTimeout(300);
  await expect(seen(page, feed)).resolves.toMatchObject({ count: 0 });
});

test("how it gets there is the finding's story", async () => {
  await page.getByRole("button", { name: "How it gets there" }).click();
  const story = page.getByRole("tabpanel", { name: "Story" });
  await story.getByText("Key S1 to off").waitFor();
  expect(opened.trouble).toEqual([]);
});
