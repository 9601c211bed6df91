import { mkdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launch, openPage, type Size } from "./page.ts";

const shots = fileURLToPath(new URL("../../build/screenshots/", import.meta.url));
const SIZES: readonly (readonly [string, Size])[] = [
  ["1440x900", { width: 1440, height: 900 }],
  ["1280x720", { width: 1280, height: 720 }],
  ["390x844", { width: 390, height: 844 }],
];

let browser: Browser;
beforeAll(async () => {
  mkdirSync(shots, { recursive: true });
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
});

const proved = (page: Page) => page.getByText("was looked at").waitFor();
const drawn = (page: Page) => page.locator(".drawing svg").waitFor();

describe.each(SIZES)("at %s", (name, size) => {
  test.each(["light", "dark"] as const)("first page and a lit finding, %s", async (scheme) => {
    const first = await openPage(browser, size, scheme);
    await first.page.getByRole("heading", { name: "Prove a loom before a wire is cut" }).waitFor();
    await expect(first.page.getByText("Disconnect the battery before you work on the loom.").isVisible()).resolves.toBe(
      true,
    );
    await first.page.screenshot({ path: `${shots}first-${name}-${scheme}.png` });
    const { page, trouble } = await openPage(browser, size, scheme, "fuel-feed");
    await drawn(page);
    await proved(page);
    await page.getByRole("button", { name: /Fuel feed K3 holds itself in/ }).click();
    await page.getByText("It holds whatever the release times.").waitFor();
    // The part that holds stands in view, large enough to see.
    const ring = await page.locator(".drawing svg circle[r='24']").boundingBox();
    const sheet = await page.getByRole("region", { name: /Drawing of/ }).boundingBox();
    if (ring === null || sheet === null) throw new Error("no ring or no sheet");
    expect(ring.width).toBeGreaterThan(30);
    expect(ring.x).toBeGreaterThan(sheet.x);
    expect(ring.y).toBeGreaterThan(sheet.y);
    expect(ring.x + ring.width).toBeLessThan(sheet.x + sheet.width);
    expect(ring.y + ring.height).toBeLessThan(sheet.y + sheet.height);
    await page.screenshot({ path: `${shots}lit-${name}-${scheme}.png` });
    // Nothing scrolls sideways.
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(overflow).toBeLessThanOrEqual(0);
    expect([...first.trouble, ...trouble]).toEqual([]);
    await first.page.close();
    await page.close();
  });
});

test("a scenario opens by a click, its cured twin says that nothing was found", async () => {
  const { page, trouble } = await openPage(browser, { width: 1440, height: 900 });
  await page.getByRole("button", { name: /Fuel feed, cured/ }).click();
  await proved(page);
  await expect(page.getByText("Nothing found.").isVisible()).resolves.toBe(true);
  expect(trouble).toEqual([]);
  await page.close();
});

test("a picked finding dims what is not on its path and lights what is", async () => {
  const { page } = await openPage(browser, { width: 1440, height: 900 }, "light", "fuel-feed");
  await proved(page);
  const before = await page.locator(".drawing").innerHTML();
  await page.getByRole("button", { name: /Fuel feed K3 holds itself in/ }).click();
  await expect.poll(() => page.locator(".drawing").innerHTML()).not.toBe(before);
  await expect(page.locator(".drawing svg circle[r='24']").count()).resolves.toBe(1);
  await page.getByRole("button", { name: /Fuel feed K3 holds itself in/ }).click();
  await expect.poll(() => page.locator(".drawing").innerHTML()).toBe(before);
  await page.close();
});

test("a bad file is told with its places, and the page can go back", async () => {
  const { page, trouble } = await openPage(browser, { width: 1440, height: 900 });
  const text = readFileSync(new URL("../../examples/fuel-feed.loom.json", import.meta.url), "utf8").replace(
    '"watts": "55 W"',
    '"wats": "55 W"',
  );
  await page
    .locator("input[type=file]")
    .setInputFiles({ name: "mine.loom.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await page.getByRole("heading", { name: "mine.loom.json cannot be opened" }).waitFor();
  await expect(page.getByText(/Line \d+, column \d+/).count()).resolves.toBeGreaterThan(0);
  await expect(page.getByText(/watts/).first().isVisible()).resolves.toBe(true);
  await page.getByRole("button", { name: "Back", exact: true }).click();
  await page.getByRole("heading", { name: "Prove a loom before a wire is cut" }).waitFor();
  expect(trouble).toEqual([]);
  await page.close();
});

test("markup in a loom is shown as text, never run", async () => {
  const { page, trouble } = await openPage(browser, { width: 1440, height: 900 });
  const evil = "<img src=x onerror=alert(1)></text><script>alert(2)</script>";
  const text = readFileSync(new URL("../../examples/fuel-feed.loom.json", import.meta.url), "utf8")
    .replace('"label": "Battery"', `"label": ${JSON.stringify(evil)}`)
    .replace('"title": "Fuel feed (invented)"', `"title": ${JSON.stringify(evil)}`);
  let alerts = 0;
  page.on("dialog", async (dialog) => {
    alerts++;
    await dialog.dismiss();
  });
  await page
    .locator("input[type=file]")
    .setInputFiles({ name: "evil.loom.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await drawn(page);
  await expect(page.locator(".drawing img, .drawing script").count()).resolves.toBe(0);
  expect(alerts).toBe(0);
  expect(trouble).toEqual([]);
  await page.close();
});

test("the sheet zooms and fits by keys", async () => {
  const { page } = await openPage(browser, { width: 1440, height: 900 }, "light", "fuel-feed");
  await drawn(page);
  await page.waitForTimeout(300);
  const transform = () => page.locator(".drawing").evaluate((e) => (e as HTMLElement).style.transform);
  const fitted = await transform();
  await page.getByRole("region", { name: /Drawing of/ }).focus();
  await page.keyboard.press("+");
  expect(await transform()).not.toBe(fitted);
  await page.keyboard.press("0");
  await expect.poll(transform).toBe(fitted);
  await page.close();
});
