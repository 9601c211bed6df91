import { readFileSync } from "node:fs";
import { behaviourSchema, timelineSchema } from "@loomproof/cli";
import { THEMES } from "@loomproof/drawing";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
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

test("what is wanted is said beside its row, is checked, and Undo takes it back", async () => {
  const row = page.getByRole("row").filter({ has: page.getByRole("rowheader", { name: "E1 Work light left" }) });
  const invite = row.getByRole("button", { name: "Say what you want of E1" });
  await invite.click();
  await row.getByRole("checkbox", { name: "run" }).check();
  await row.getByRole("button", { name: "Want it so" }).click();
  await row.getByText("being checked").waitFor();
  // The lights are on with the key off as well.
  await row.getByText("only with Key run").waitFor({ timeout: 40_000 });
  await expect(row.locator(".verdict").textContent()).resolves.toBe("not so");
  await expect(row.locator(".against").count()).resolves.toBe(1);
  await page.getByRole("button", { name: "Undo" }).click();
  await invite.waitFor({ timeout: 40_000 });
});

test("how it gets there is the finding's story", async () => {
  await page.getByRole("button", { name: "How it gets there" }).click();
  const story = page.getByRole("tabpanel", { name: "Story" });
  await story.getByText("Key S1 to off").waitFor();
  expect(opened.trouble).toEqual([]);
});

describe("the strip chart", () => {
  const MOVES = "key=run, 100ms A1.4=on, 200ms key=off";
  const plot = () => page.getByRole("slider", { name: "Cursor over the strip chart" });
  const reading = (lane: string) => page.locator(`output[data-lane="${lane}"]`).textContent();
  const file = "examples/fuel-feed.loom.json";

  test("plays the story of the picked finding", async () => {
    await page.getByRole("tab", { name: "Strip chart" }).click();
    await expect(page.getByRole("textbox", { name: "Moves" }).inputValue()).resolves.toBe("S1=run, S1=off");
    await plot().waitFor();
    await page.locator(".cell-foot").getByText("in: K2, K3; on: K2, K3, M1.").waitFor();
  });

  test("moves that cannot be read are told under the field, and Esc puts them back", async () => {
    const field = page.getByRole("textbox", { name: "Moves" });
    await field.fill("S1=go");
    await field.press("Enter");
    const alert = page.getByRole("alert");
    await expect(alert.textContent()).resolves.toBe('Found "S1=go"; expected a position of S1 (off, run, start).');
    await field.fill(MOVES);
    await field.press("Enter");
    await plot().waitFor();
    await expect(alert.count()).resolves.toBe(0);
  });

  test("the readings at the cursor are those of play --json, at every event", async () => {
    const { events, traces } = timelineSchema.parse(
      JSON.parse(loomproof(["play", file, "--moves", MOVES, "--json"]).out),
    );
    await page.getByLabel("Volts at").fill("A1.1");
    await page.keyboard.press("Enter");
    const amps = (a: number) => `${Number((a * 1000).toPrecision(3))}\u00a0mA`;
    const volts = (v: number) => `${v.toFixed(Math.abs(v) < 9.995 ? 2 : 1)}\u00a0V`;
    await plot().focus();
    await page.keyboard.press("Home");
    const moments = [...new Set(events.filter((e) => e.says !== "").map((e) => e.ms))];
    expect(moments.length).toBeGreaterThan(8);
    for (const moment of moments) {
      if (moment > 0) await page.keyboard.press("Shift+ArrowRight");
      await expect(plot().getAttribute("aria-valuenow")).resolves.toBe(String(Number(moment.toFixed(2))));
      // Of two moments at one time the later; where a coil begins to move lies between two of them.
      const k = traces.ms.findLastIndex((ms) => ms <= moment);
      const [t0 = 0, t1 = t0] = traces.ms.slice(k, k + 2);
      const between = (list: readonly (number | null)[]) => {
        const [v0, v1] = [list[k] ?? Number.NaN, list[k + 1] ?? Number.NaN];
        return t0 === moment ? v0 : v0 + ((moment - t0) / (t1 - t0)) * (v1 - v0);
      };
      for (const { id, amps: list } of traces.coils.filter((c) => ["K1", "K2", "K3"].includes(c.id)))
        await expect(reading(`coil ${id} 1`)).resolves.toBe(amps(between(list)));
      for (const { id, in: list } of traces.relays.filter((r) => ["K1", "K2", "K3"].includes(r.id)))
        await expect(reading(`contact ${id}`)).resolves.toBe(list[k] === 1 ? "in" : "out");
      await expect(reading("volts A1.1")).resolves.toBe(volts(between(traces.volts["A1.1"] ?? [])));
    }
  });

  test("the mouse moves the cursor, and the table is the one of the terminal", async () => {
    const box = await plot().boundingBox();
    if (box === null) throw new Error("no chart");
    await page.mouse.move(box.x + 40, box.y + 30);
    await expect(reading("input S1")).resolves.toBe("run");
    const saved = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as table" }).click();
    const path = await (await saved).path();
    expect(readFileSync(path, "utf8")).toBe(loomproof(["play", file, "--moves", MOVES, "--csv"]).out);
  });

  test("slower relays land later; closer in time it scrolls in its own box, the page never sideways", async () => {
    await plot().focus();
    await page.keyboard.press("End");
    const until = async () => Number(await plot().getAttribute("aria-valuemax"));
    const before = await until();
    await page.getByRole("radio", { name: "slowest" }).check();
    await expect.poll(until).toBeGreaterThan(before);
    await page.getByRole("button", { name: "Closer in time" }).click();
    const scroll = page.locator(".strip-scroll");
    expect(await scroll.evaluate((e) => e.scrollWidth - e.clientWidth)).toBeGreaterThan(500);
    await expect(page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).resolves.toBeLessThanOrEqual(
      0,
    );
    expect(opened.trouble).toEqual([]);
  });
});
