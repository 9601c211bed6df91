import { newLoom, write } from "@loomproof/netlist";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { saved } from "./on-sheet.ts";
import { DESK, drawn, launch, type Opened, show } from "./page.ts";

// Edits at random through the page. None is lost by Undo and Redo, and none that was kept by a killed tab.

let browser: Browser;
let context: BrowserContext;
beforeAll(async () => {
  browser = await launch();
  context = await browser.newContext({ viewport: DESK });
});
afterAll(async () => {
  await browser?.close();
});

/** Numbers that look random and are the same in each run: the least significant bits of a linear congruence are left out. */
function dice(seed: number): (sides: number) => number {
  let state = seed;
  return (sides) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state >>> 8) % sides;
  };
}

async function blank(): Promise<Opened> {
  const opened = await show(await context.newPage());
  await opened.page.getByRole("button", { name: /A blank loom/ }).click();
  await drawn(opened.page);
  return opened;
}

const shown = (page: Page, tab: string) => page.getByRole("tab", { name: tab, exact: true });
const turnTo = async (page: Page, tab: string) => {
  if ((await shown(page, tab).getAttribute("aria-selected")) !== "true") await shown(page, tab).click();
};

const SHELF = ["lamp", "relay", "blade fuse", "diode", "pump", "splice", "switch"];
const PARTS = ["E1", "E2", "K1", "K2", "F1", "V1", "M1", "XS1", "S1", "S2"];
const KEYS = ["ArrowLeft", "ArrowRight", "Shift+ArrowUp", "Shift+ArrowDown", "r", "m"];

/** One edit that a person could make, by the means of the page. */
async function edit(page: Page, roll: (sides: number) => number): Promise<void> {
  const what = roll(20);
  if (what === 0) {
    await turnTo(page, "Shelf");
    const field = page.getByRole("searchbox", { name: "Find a part on the shelf" });
    await field.fill(SHELF[roll(SHELF.length)] ?? "");
    await field.press("Enter");
  } else if (what <= 2) {
    await turnTo(page, "Outline");
    const field = page.getByRole("searchbox", { name: "Find in the outline" });
    await field.fill(PARTS[roll(PARTS.length)] ?? "");
    await field.press("ArrowDown");
    // What is gone already is not in the list.
    if (await page.locator(".entries button").first().isVisible()) await page.keyboard.press("Enter");
    await page.locator(".sheet").focus();
    await page.keyboard.press(what === 1 ? "Delete" : "Shift+ArrowRight");
  } else if (what === 3) await page.keyboard.press("Control+z");
  else if (what === 4) await page.keyboard.press("Control+Shift+z");
  else {
    await page.locator(".sheet").focus();
    await page.keyboard.press(KEYS[roll(KEYS.length)] ?? "");
  }
}

/** How many steps are kept, once nothing is on its way any more. */
async function position(page: Page): Promise<number> {
  await page.locator(".page[data-kept]").waitFor({ timeout: 30_000 });
  return Number(await page.locator(".page").getAttribute("data-kept"));
}

const text = async (page: Page) => write(await saved(page, () => page.keyboard.press("Control+s")));

test("200 edits undone one by one give the file of before, and done again the file of after", {
  timeout: 240_000,
}, async () => {
  const { page, trouble } = await blank();
  const roll = dice(11);
  let edits = 0;
  for (let steps = 0; steps < 200; edits++) {
    await edit(page, roll);
    // Undo takes steps back, so they are counted at times and not reckoned.
    if (edits % 20 === 19) steps = await position(page);
    expect(edits).toBeLessThan(1000);
  }
  const steps = await position(page);
  const after = await text(page);
  for (let i = 0; i < steps; i++) await page.keyboard.press("Control+z");
  await page.getByRole("button", { name: "Nothing to undo" }).waitFor({ timeout: 60_000 });
  expect(await position(page)).toBe(0);
  expect(await text(page)).toBe(write(newLoom()));
  for (let i = 0; i < steps; i++) await page.keyboard.press("Control+Shift+z");
  await page.getByRole("button", { name: "Nothing to redo" }).waitFor({ timeout: 60_000 });
  expect(await text(page)).toBe(after);
  expect(trouble).toEqual([]);
  await page.close();
});

test("a tab killed 20 times while it is edited comes back with every edit that was kept", {
  timeout: 240_000,
}, async () => {
  let { page } = await blank();
  const roll = dice(23);
  await edit(page, () => 0);
  for (let kill = 0; kill < 20; kill++) {
    for (let i = roll(3); i >= 0; i--) await edit(page, roll);
    const steps = await position(page);
    const before = await text(page);
    const { hash } = new URL(page.url());
    // These are on their way when it dies.
    for (let i = 0; i < 1 + roll(3); i++) void page.keyboard.press(KEYS[roll(4)] ?? "").catch(() => undefined);
    if (kill % 2 === 0) await page.waitForTimeout(roll(40));
    const crashed = page.waitForEvent("crash");
    const control = await context.newCDPSession(page);
    void control.send("Page.crash").catch(() => undefined);
    await crashed;
    await page.close();
    page = (await show(await context.newPage(), hash)).page;
    await drawn(page);
    const now = await position(page);
    expect(now).toBeGreaterThanOrEqual(steps);
    for (let i = steps; i < now; i++) await page.keyboard.press("Control+z");
    await page.locator(`.page[data-kept="${steps}"]`).waitFor();
    expect(await text(page)).toBe(before);
    for (let i = steps; i < now; i++) await page.keyboard.press("Control+Shift+z");
  }
  await page.close();
});
