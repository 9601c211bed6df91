import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parse, setTitle, write } from "@loomproof/netlist";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { asFile, DESK, fileField, launch, launchWith, type Opened, show } from "./page.ts";

const fuelFeed = readFileSync(new URL("../../examples/fuel-feed.loom.json", import.meta.url), "utf8");

let browser: Browser;
let context: BrowserContext;
let tabs: Opened[];
beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
});
beforeEach(async () => {
  context = await browser.newContext({ viewport: DESK });
  tabs = [];
});
afterEach(async () => {
  expect(tabs.flatMap((t) => t.trouble)).toEqual([]);
  await context.close();
});

/** Another tab of the same person. */
async function tab(hash = ""): Promise<Page> {
  const opened = await show(await context.newPage(), hash);
  tabs.push(opened);
  return opened.page;
}

const title = (page: Page) => page.getByTitle("Change the title");

/** The edit that the top line offers. */
async function retitle(page: Page, to: string): Promise<void> {
  await title(page).click();
  await page.getByLabel("Title of the loom").fill(to);
  await page.keyboard.press("Enter");
  await called(page, to);
}

/** Waits until the loom bears this title. */
const called = (page: Page, name: string) => page.getByRole("button", { name, exact: true }).waitFor();

/** Waits until so many steps are on the disk, and nothing else is. */
const kept = (page: Page, steps: number) => page.locator(`.page[data-kept="${steps}"]`).waitFor({ timeout: 20_000 });
const press = (page: Page, name: string | RegExp) => page.getByRole("button", { name }).click();
const hashOf = (page: Page) => new URL(page.url()).hash;
const apart = (page: Page) => page.getByText("This loom was edited in another tab.");

/** A blank loom with two steps, kept. */
async function twoSteps(): Promise<Page> {
  const page = await tab();
  await press(page, /A blank loom/);
  await retitle(page, "One");
  await retitle(page, "Two");
  await kept(page, 2);
  return page;
}

async function saved(page: Page): Promise<{ readonly name: string; readonly text: string }> {
  const coming = page.waitForEvent("download");
  await page.keyboard.press("Control+s");
  const download = await coming;
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), "utf8") };
}

test("a blank loom is edited, reloaded, and undone to where it began", async () => {
  const page = await twoSteps();
  expect(hashOf(page)).toMatch(/^#draft=\w{10}$/);
  await page.getByText("not saved to a file; kept in this browser").waitFor();
  await page.reload();
  await called(page, "Two");
  await press(page, "Undo: Title: Two");
  await kept(page, 1);
  await page.reload();
  await called(page, "One");
  await page.keyboard.press("Control+Shift+Z");
  await called(page, "Two");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  await called(page, "New loom");
  await page.getByRole("button", { name: "Nothing to undo" }).waitFor();
  await page.keyboard.press("Control+y");
  await called(page, "One");
});

test("an example keeps its address until the first edit; then the draft has one, and Back leads out of it", async () => {
  const page = await tab();
  await page.getByRole("link", { name: /Fuel feed, cured/ }).click();
  await page.getByText("an invented example").waitFor();
  expect(hashOf(page)).toBe("#loom=fuel-feed-cured");
  await retitle(page, "Mine");
  await kept(page, 1);
  const address = hashOf(page);
  expect(address).toMatch(/^#draft=/);
  await page.goBack();
  await page.getByRole("heading", { name: "Prove a loom before a wire is cut" }).waitFor();
  await page.goForward();
  await called(page, "Mine");
  expect(hashOf(page)).toBe(address);
  // The example itself is as it was.
  await page.getByRole("tab", { name: "Looms" }).click();
  await page.getByRole("link", { name: /Fuel feed, cured/ }).click();
  await page.getByText("an invented example").waitFor();
  await called(page, "Fuel feed, cured (invented)");
});

test("Undo in a field is the field's own; Escape leaves the title as it was", async () => {
  const page = await twoSteps();
  await title(page).click();
  const field = page.getByLabel("Title of the loom");
  await field.fill("Three");
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Escape");
  await called(page, "Two");
  await kept(page, 2);
});

test("an edit that would be no loom is refused in words, and nothing changes", async () => {
  const page = await twoSteps();
  await title(page).click();
  await page.getByLabel("Title of the loom").fill("x".repeat(201));
  await page.keyboard.press("Enter");
  await page
    .getByRole("alert")
    .getByText(/at most 200 characters/)
    .waitFor();
  await page.keyboard.press("Escape");
  await called(page, "Two");
  await kept(page, 2);
});

test("a tab that crashes comes back at the last edit that was kept, with its whole history", async () => {
  const page = await twoSteps();
  const address = hashOf(page);
  const crashed = page.waitForEvent("crash");
  const control = await context.newCDPSession(page);
  void control.send("Page.crash").catch(() => undefined);
  await crashed;
  const again = await tab(address);
  await called(again, "Two");
  await again.keyboard.press("Control+z");
  await again.keyboard.press("Control+z");
  await called(again, "New loom");
});

// Two starts of a browser: longer than the others.
test("a browser that crashes as a whole comes back with what was said to be kept", { timeout: 120_000 }, async () => {
  const profile = mkdtempSync(join(tmpdir(), "loomproof-"));
  const before = await launchWith(profile);
  const { page } = await show(await before.newPage(), "#new");
  await retitle(page, "One");
  await retitle(page, "Two");
  await kept(page, 2);
  const address = hashOf(page);
  const gone = new Promise((resolve) => before.on("close", resolve));
  const control = await before.browser()?.newBrowserCDPSession();
  void control?.send("Browser.crash").catch(() => undefined);
  await gone;
  const after = await launchWith(profile);
  const { page: again } = await show(await after.newPage(), address);
  await called(again, "Two");
  await press(again, "Undo: Title: Two");
  await called(again, "One");
  await after.close();
  rmSync(profile, { recursive: true, force: true });
});

test("a tab closed without a word loses nothing that was said to be kept, however quickly one edits", async () => {
  const page = await twoSteps();
  const address = hashOf(page);
  for (let i = 0; i < 5; i++) await page.keyboard.press(i % 2 === 0 ? "Control+z" : "Control+y");
  await kept(page, 1);
  await page.close({ runBeforeUnload: false });
  const again = await tab(address);
  await called(again, "One");
  await again.getByRole("button", { name: "Redo: Title: Two" }).waitFor();
});

test("two tabs on one draft: the second to edit is told, and can take the other's", async () => {
  const first = await twoSteps();
  const second = await tab(hashOf(first));
  await retitle(second, "Second");
  await kept(second, 3);
  await retitle(first, "First");
  await apart(first).waitFor();
  await first.getByText("not kept, another tab has edited it").waitFor();
  // Nothing of the other tab was written over.
  await second.reload();
  await called(second, "Second");
  await press(first, "Take the other tab’s");
  await called(first, "Second");
  await apart(first).waitFor({ state: "detached" });
  await retitle(first, "Together");
  await kept(first, 4);
});

test("two tabs on one draft: mine can be kept as a copy, with its history", async () => {
  const first = await twoSteps();
  const address = hashOf(first);
  const second = await tab(address);
  await retitle(second, "Second");
  await kept(second, 3);
  await retitle(first, "First");
  await apart(first).waitFor();
  await press(first, "Keep mine as a copy");
  await kept(first, 3);
  expect(hashOf(first)).not.toBe(address);
  await first.reload();
  await called(first, "First");
  await first.getByRole("button", { name: "Undo: Title: First" }).waitFor();
  await second.reload();
  await called(second, "Second");
});

test("a tab that comes into view again looks whether the other has edited", async () => {
  const first = await twoSteps();
  const second = await tab(hashOf(first));
  await retitle(second, "Second");
  await kept(second, 3);
  await first.evaluate(() => window.dispatchEvent(new Event("focus")));
  await apart(first).waitFor();
});

test("a file is opened, edited, saved, opened again: the same bytes, and the words beside the name are true", async () => {
  const page = await tab();
  await fileField(page).setInputFiles(asFile("mine.loom.json", fuelFeed));
  await page.getByText("mine.loom.json, read from this computer").waitFor();
  await retitle(page, "Mine");
  await page.getByText("mine.loom.json, changes not saved to its file; kept in this browser").waitFor();
  const { name, text } = await saved(page);
  const read = parse(fuelFeed);
  if (!read.ok) throw new Error("the example is no loom");
  expect([name, text]).toEqual(["mine.loom.json", write(setTitle(read.loom, "Mine"))]);
  await page.getByText("mine.loom.json, saved as a download").waitFor();
  await page.keyboard.press("Control+z");
  await page.getByText("changes not saved to its file").waitFor();
  await page.keyboard.press("Control+y");
  await page.getByText("mine.loom.json, saved as a download").waitFor();
  await kept(page, 1);
  await page.reload();
  await page.getByText("mine.loom.json, saved as a download").waitFor();
  await fileField(page).setInputFiles(asFile(name, text));
  await page.getByText("mine.loom.json, read from this computer").waitFor();
  expect((await saved(page)).text).toBe(text);
});

test("a blank loom is saved under its title", async () => {
  const page = await twoSteps();
  await retitle(page, "Grüne Barke 2");
  expect((await saved(page)).name).toBe("grüne-barke-2.loom.json");
});

test("the first page lists what is kept, and deletes it only when asked twice", async () => {
  const page = await twoSteps();
  await press(page, "Loomproof");
  const list = page.getByRole("region", { name: "Kept in this browser" });
  await list.getByText(/^edited today, \d\d:\d\d; not saved to a file$/).waitFor();
  // A driven browser gives no word to keep anything.
  await list.getByText("This browser may clear them when it runs short of room.").waitFor();
  await list.getByRole("button", { name: "Delete Two" }).click();
  await list.getByRole("button", { name: "Keep" }).click();
  await list.getByRole("button", { name: "Delete Two" }).click();
  await list.getByRole("button", { name: "Delete", exact: true }).click();
  await list.waitFor({ state: "detached" });
  await page.goBack();
  await page.getByText("That loom is not kept in this browser any more.").waitFor();
});

test("leaving warns only when something is neither saved nor kept", async () => {
  const page = await twoSteps();
  const asked: string[] = [];
  let isLeft = false;
  page.on("dialog", async (dialog) => {
    asked.push(dialog.message());
    await (isLeft ? dialog.accept() : dialog.dismiss());
  });
  const leave = () => page.evaluate(() => window.dispatchEvent(new Event("beforeunload", { cancelable: true })));
  expect(await leave()).toBe(true);
  // A browser that keeps nothing any more.
  await page.evaluate(() => {
    IDBDatabase.prototype.transaction = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
  });
  await retitle(page, "Three");
  await page.getByText("not saved to a file; this browser keeps nothing").waitFor();
  await expect(page.locator(".page").getAttribute("data-kept")).resolves.toBeNull();
  expect(await leave()).toBe(false);
  // Nor does another loom take its place unasked.
  await page.goBack();
  await expect.poll(() => asked.length).toBe(1);
  await press(page, "Loomproof");
  await expect.poll(() => asked.length).toBe(2);
  await called(page, "Three");
  await saved(page);
  expect(await leave()).toBe(true);
  await retitle(page, "Four");
  isLeft = true;
  await press(page, "Loomproof");
  await page.getByRole("heading", { name: "Prove a loom before a wire is cut" }).waitFor();
  expect(new Set(asked)).toEqual(new Set(["This loom is neither saved to a file nor kept in this browser. Leave it?"]));
  expect(asked).toHaveLength(3);
});
