import { readFileSync } from "node:fs";
import { write } from "@loomproof/netlist";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inventedTractor } from "../drawing/invented.ts";
import { asFile, DESK, drawn, fileField, launch, openPage, proved, show } from "./page.ts";

const fuelFeed = readFileSync(new URL("../../examples/fuel-feed.loom.json", import.meta.url), "utf8");
const bad = fuelFeed.replace('"watts": "55 W"', '"wats": "55 W"');

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
});

const atFirstPage = (page: Page) => page.getByRole("heading", { name: "Prove a loom before a wire is cut" }).waitFor();

/** Drops a file on the page, as a person does from a folder. */
async function drop(page: Page, name: string, text: string): Promise<void> {
  const carried = await page.evaluateHandle(
    ([n, t]) => {
      const data = new DataTransfer();
      data.items.add(new File([t], n, { type: "application/json" }));
      return data;
    },
    [name, text] as const,
  );
  const target = page.locator(".page");
  await target.dispatchEvent("dragenter", { dataTransfer: carried });
  await page.getByText("Let go to open the loom").waitFor();
  await target.dispatchEvent("dragover", { dataTransfer: carried });
  await target.dispatchEvent("drop", { dataTransfer: carried });
  await page.getByText("Let go to open the loom").waitFor({ state: "detached" });
}

test("an example opens by a click, has an address, and the browser's back leads to the first page", async () => {
  const { page, trouble } = await openPage(browser, DESK);
  await page.getByRole("link", { name: /Fuel feed, cured/ }).click();
  await proved(page);
  await expect(page.getByText("Nothing found.").isVisible()).resolves.toBe(true);
  expect(page.url()).toMatch(/#loom=fuel-feed-cured$/);
  await page.goBack();
  await atFirstPage(page);
  expect(trouble).toEqual([]);
  await page.close();
});

test("every example is on the list, marked as invented", async () => {
  const { page } = await openPage(browser, DESK);
  await atFirstPage(page);
  const links = await page.getByRole("link").all();
  expect(links.length).toBeGreaterThan(1);
  for (const link of links) await expect(link.textContent()).resolves.toMatch(/Invented$/);
  await page.close();
});

test("an address names an example; one that there is not is told", async () => {
  const { page, trouble } = await openPage(browser, DESK, "light", "fuel-feed");
  await page.getByRole("region", { name: "Drawing of Fuel feed (invented)" }).waitFor();
  await page.evaluate(() => {
    window.location.hash = "#loom=no-such-loom";
  });
  await page.getByText("There is no example called “no-such-loom” here.").waitFor();
  expect(trouble).toEqual([]);
  await page.close();
});

test("a file opens by the dialog", async () => {
  const { page, trouble } = await openPage(browser, DESK);
  const asked = page.waitForEvent("filechooser");
  await page.getByRole("button", { name: /Open a loom file/ }).click();
  await (await asked).setFiles(asFile("mine.loom.json", fuelFeed));
  await drawn(page);
  await page.getByText("mine.loom.json, read from this computer").waitFor();
  expect(trouble).toEqual([]);
  await page.close();
});

test("a file opens by dropping it, on the first page and on another loom", async () => {
  const { page, trouble } = await openPage(browser, DESK);
  await atFirstPage(page);
  await drop(page, "one.loom.json", fuelFeed);
  await page.getByText("one.loom.json, read").waitFor();
  await drawn(page);
  await drop(page, "two.loom.json", fuelFeed.replace("Fuel feed (invented)", "Second (invented)"));
  await page.getByText("two.loom.json, read").waitFor();
  await page.getByRole("region", { name: "Drawing of Second (invented)" }).waitFor();
  expect(trouble).toEqual([]);
  await page.close();
});

test("the last file is kept in the browser and can be opened again", async () => {
  const { page, trouble } = await openPage(browser, DESK);
  await fileField(page).setInputFiles(asFile("kept.loom.json", fuelFeed));
  await drawn(page);
  // A reload comes back to it; so does the first page.
  await page.reload();
  await page.getByText("kept.loom.json, read").waitFor();
  await drawn(page);
  await page.getByRole("button", { name: "Loomproof" }).click();
  await page.getByRole("link", { name: /The last one: kept\.loom\.json/ }).click();
  await page.getByText("kept.loom.json, read").waitFor();
  await drawn(page);
  expect(trouble).toEqual([]);
  await page.close();
});

test("a bad file is told with its places, and leads back to the loom that was open", async () => {
  const { page, trouble } = await openPage(browser, DESK);
  await fileField(page).setInputFiles(asFile("mine.loom.json", bad));
  await page.getByRole("heading", { name: "mine.loom.json cannot be opened" }).waitFor();
  const line = bad.slice(0, bad.indexOf('"wats"')).split("\n").length;
  await expect(page.getByText(new RegExp(`^Line ${line}, column \\d+$`)).count()).resolves.toBeGreaterThan(0);
  await expect(page.getByText(/watts/).first().isVisible()).resolves.toBe(true);
  await page.getByRole("button", { name: "Back", exact: true }).click();
  await atFirstPage(page);
  await page.getByRole("link", { name: /Fuel feed, cured/ }).click();
  await drawn(page);
  await drop(page, "mine.loom.json", bad);
  await page.getByRole("button", { name: "Back to fuel-feed-cured.loom.json" }).click();
  await page.getByRole("region", { name: /Drawing of Fuel feed, cured/ }).waitFor();
  expect(trouble).toEqual([]);
  await page.close();
});

test("nothing, half a file, a picture and a list are no looms: the page says so each time and stays", async () => {
  const { page, trouble } = await openPage(browser, DESK);
  const odd = {
    nothing: "",
    half: fuelFeed.slice(0, fuelFeed.length / 2),
    picture: "\u0089PNG\r\n\u001a\n\u0000\u0000",
    list: "[]",
  };
  for (const [name, text] of Object.entries(odd)) {
    await fileField(page).setInputFiles(asFile(`${name}.loom.json`, text));
    await page.getByRole("heading", { name: `${name}.loom.json cannot be opened` }).waitFor();
    await expect(page.getByText(/^Line \d+, column \d+$/).count()).resolves.toBeGreaterThan(0);
    await page.getByRole("button", { name: "Back", exact: true }).click();
    await atFirstPage(page);
  }
  expect(trouble).toEqual([]);
  await page.close();
});

test("a file that is far too big is refused in words, and the loom that is open stays", async () => {
  const { page, trouble } = await openPage(browser, DESK, "light", "fuel-feed-cured");
  await drawn(page);
  // Made in the page: 21 MB take long to get there.
  await fileField(page).evaluate((field) => {
    const files = new DataTransfer();
    files.items.add(new File(["x".repeat(21_000_000)], "film.mp4"));
    (field as HTMLInputElement).files = files.files;
    field.dispatchEvent(new Event("change", { bubbles: true }));
  });
  await page.getByRole("alert").getByText("film.mp4 is no loom: it has 21 MB").waitFor();
  await expect(page.getByRole("region", { name: /Drawing of Fuel feed, cured/ }).isVisible()).resolves.toBe(true);
  await page.getByRole("button", { name: "Close" }).click();
  await expect(page.getByRole("alert").count()).resolves.toBe(0);
  expect(trouble).toEqual([]);
  await page.close();
});

test("markup in a loom is shown as text, never run", async () => {
  const { page, trouble } = await openPage(browser, DESK);
  const evil = "<img src=x onerror=alert(1)></text><script>alert(2)</script>";
  const text = fuelFeed
    .replace('"label": "Battery"', `"label": ${JSON.stringify(evil)}`)
    .replace('"title": "Fuel feed (invented)"', `"title": ${JSON.stringify(evil)}`);
  let alerts = 0;
  page.on("dialog", async (dialog) => {
    alerts++;
    await dialog.dismiss();
  });
  await fileField(page).setInputFiles(asFile("evil.loom.json", text));
  await drawn(page);
  await expect(page.getByText(evil).first().isVisible()).resolves.toBe(true);
  await expect(page.locator(".page img, .page script").count()).resolves.toBe(0);
  expect(alerts).toBe(0);
  expect(trouble).toEqual([]);
  await page.close();
});

test("a file opened again after an edit keeps every part where it was", async () => {
  const { page, trouble } = await openPage(browser, DESK);
  await fileField(page).setInputFiles(asFile("mine.loom.json", fuelFeed));
  await drawn(page);
  const before = await partsOf(page);
  const edited = fuelFeed
    .replace(/("parts": \[\n)/, '$1{"id": "E9", "is": "lamp", "label": "Cab light", "watts": "5 W"},\n')
    .replace(
      /("wires": \[\n)/,
      '$1{"id": "W90", "from": "F4.b", "to": "E9.a", "size": "1 mm2", "length": "1 m", "colour": "YE"},\n{"id": "W91", "from": "E9.b", "to": "XE2", "size": "1 mm2", "length": "1 m", "colour": "BN"},\n',
    );
  await fileField(page).setInputFiles(asFile("mine.loom.json", edited));
  await expect.poll(async () => (await partsOf(page)).has("E9"), { timeout: 20_000 }).toBe(true);
  const after = await partsOf(page);
  // A larger sheet may shift all of them alike.
  const shifts = [...before].map(([id, p]) => {
    const now = after.get(id);
    return now === undefined ? `${id} is gone` : `${now.x - p.x} ${now.y - p.y}`;
  });
  expect(new Set(shifts).size).toBe(1);
  expect(trouble).toEqual([]);
  await page.close();
});

/** Where each part stands on the canvas; ground tails left out. */
async function partsOf(page: Page): Promise<ReadonlyMap<string, { readonly x: number; readonly y: number }>> {
  const list = await page.evaluate(() => {
    const { Konva } = window as unknown as {
      Konva: { stages: { find: (s: string) => { name: () => string; x: () => number; y: () => number }[] }[] };
    };
    return (Konva.stages.at(-1)?.find(".part") ?? []).map((p) => [p.name().slice(5), { x: p.x(), y: p.y() }] as const);
  });
  return new Map(list.filter(([id]) => /^[A-Z]+\d+$/.test(id)));
}

test("a long check says what it looks at, can be stopped, and ends when another loom is opened", async () => {
  const { page, trouble } = await openPage(browser, DESK);
  await fileField(page).setInputFiles(asFile("tractor.loom.json", write(inventedTractor())));
  await page.getByText("Every switch position, in every order: as usual").waitFor({ timeout: 40_000 });
  await expect(page.getByRole("progressbar").isVisible()).resolves.toBe(true);
  await page.getByRole("button", { name: "Stop" }).click();
  await page.getByText("Nothing is proved; the drawing stands.").waitFor();
  await page.getByRole("button", { name: "Check again" }).click();
  await page.getByText("Every switch position, in every order: as usual").waitFor({ timeout: 40_000 });
  await page.getByRole("tab", { name: "Looms" }).click();
  await page.getByRole("link", { name: /Fuel feed, cured/ }).click();
  await proved(page);
  await expect(page.getByText("Nothing found.").isVisible()).resolves.toBe(true);
  expect(trouble).toEqual([]);
  await page.close();
});

test("where there are cores for both, a loom is checked while it is drawn", async () => {
  const tab = await browser.newPage({ viewport: DESK });
  await tab.addInitScript(() => Object.defineProperty(navigator, "hardwareConcurrency", { value: 8 }));
  const { page, trouble } = await show(tab, "#loom=fuel-feed");
  await page.getByText("Every switch position, in every order").waitFor();
  await expect(page.getByText("Drawing …").isVisible()).resolves.toBe(true);
  await drawn(page);
  await proved(page);
  await expect(page.getByText("Drawing …").count()).resolves.toBe(0);
  expect(trouble).toEqual([]);
  await page.close();
});
