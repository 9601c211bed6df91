import { createReadStream, readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { parse, setTitle, write } from "@loomproof/netlist";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { DESK, launch, show } from "./page.ts";

// Files that the page itself writes. A driven browser shows no dialogs, so a page of our own stands in for the person: its
// pickers give real handles of files in the browser's private folder, which behave as those of the disk do.

const built = new URL("../../packages/editor/dist/index.html", import.meta.url);
const fuelFeed = readFileSync(new URL("../../examples/fuel-feed-cured.loom.json", import.meta.url), "utf8");

let browser: Browser;
let server: Server;
let address: string;
beforeAll(async () => {
  browser = await launch();
  server = createServer((_, response) => {
    response.writeHead(200, { "content-type": "text/html; charset=utf-8" });
    createReadStream(built).pipe(response);
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
});
afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** Puts a text in a file of the private folder, as another program would. */
const put = (page: Page, name: string, text: string) =>
  page.evaluate(
    async ([n, t]) => {
      const folder = await navigator.storage.getDirectory();
      const out = await (await folder.getFileHandle(n, { create: true })).createWritable();
      await out.write(t);
      await out.close();
    },
    [name, text] as const,
  );

const onDisk = (page: Page, name: string) =>
  page.evaluate(async (n) => {
    const folder = await navigator.storage.getDirectory();
    return (await (await folder.getFileHandle(n)).getFile()).text();
  }, name);

/** The person chooses this file in every dialog. */
const choose = (page: Page, name: string) =>
  page.evaluate((n) => {
    const pick = async () => (await navigator.storage.getDirectory()).getFileHandle(n, { create: true });
    Object.assign(window, { showOpenFilePicker: async () => [await pick()], showSaveFilePicker: pick });
  }, name);

const kept = (page: Page, steps: number) => page.locator(`.page[data-kept="${steps}"]`).waitFor({ timeout: 20_000 });

async function retitle(page: Page, to: string): Promise<void> {
  await page.getByTitle("Change the title").click();
  await page.getByLabel("Title of the loom").fill(to);
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: to, exact: true }).waitFor();
}

/** What the example is under another title. */
function titled(title: string): string {
  const read = parse(fuelFeed);
  if (!read.ok) throw new Error("the example is no loom");
  return write(setTitle(read.loom, title));
}

async function opened(): Promise<{ readonly page: Page; readonly trouble: readonly string[] }> {
  const { page, trouble } = await show(await browser.newPage({ viewport: DESK }), "", address);
  await put(page, "mine.loom.json", fuelFeed);
  await choose(page, "mine.loom.json");
  await page.getByRole("button", { name: /Open a loom file/ }).click();
  await page.getByText("mine.loom.json, read from this computer").waitFor();
  return { page, trouble };
}

test("Save writes into the file that was opened, also after a reload", async () => {
  const { page, trouble } = await opened();
  await retitle(page, "Mine");
  await page.keyboard.press("Control+s");
  await page.getByText("mine.loom.json, saved to its file").waitFor();
  expect(await onDisk(page, "mine.loom.json")).toBe(titled("Mine"));
  await retitle(page, "Mine again");
  await kept(page, 2);
  await page.reload();
  await page.getByText("mine.loom.json, changes not saved to its file; kept in this browser").waitFor();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("mine.loom.json, saved to its file").waitFor();
  expect(await onDisk(page, "mine.loom.json")).toBe(titled("Mine again"));
  expect(trouble).toEqual([]);
  await page.close();
});

test("a file that was changed on the disk is not written over unasked", async () => {
  const { page, trouble } = await opened();
  await retitle(page, "Mine");
  await put(page, "mine.loom.json", titled("Of another program"));
  await page.keyboard.press("Control+s");
  await page.getByText("mine.loom.json was changed on the disk").waitFor();
  expect(await onDisk(page, "mine.loom.json")).toBe(titled("Of another program"));
  await page.getByText("changes not saved to its file").waitFor();
  await choose(page, "other.loom.json");
  await page.getByRole("button", { name: "Save as another file" }).click();
  await page.getByText("other.loom.json, saved to its file").waitFor();
  await page.getByText("was changed on the disk").waitFor({ state: "detached" });
  expect(await onDisk(page, "mine.loom.json")).toBe(titled("Of another program"));
  expect(await onDisk(page, "other.loom.json")).toBe(titled("Mine"));
  await put(page, "other.loom.json", titled("Once more"));
  await retitle(page, "Mine at last");
  await page.keyboard.press("Control+s");
  await page.getByRole("button", { name: "Write over it" }).click();
  await page.getByText("other.loom.json, saved to its file").waitFor();
  expect(await onDisk(page, "other.loom.json")).toBe(titled("Mine at last"));
  expect(trouble).toEqual([]);
  await page.close();
});

test("Save as writes another file and stays with it; a dialog that is cancelled changes nothing", async () => {
  const { page, trouble } = await opened();
  await retitle(page, "Mine");
  await page.evaluate(() => {
    const cancel = () => Promise.reject(new DOMException("", "AbortError"));
    Object.assign(window, { showSaveFilePicker: cancel });
  });
  await page.keyboard.press("Control+Shift+S");
  await page.getByText("mine.loom.json, changes not saved to its file").waitFor();
  await choose(page, "other.loom.json");
  await page.keyboard.press("Control+Shift+S");
  await page.getByText("other.loom.json, saved to its file").waitFor();
  expect(await onDisk(page, "mine.loom.json")).toBe(fuelFeed);
  expect(trouble).toEqual([]);
  await page.close();
});

test("a file that is gone is told, and nothing else happens", async () => {
  const { page, trouble } = await opened();
  await retitle(page, "Mine");
  await page.evaluate(async () => (await navigator.storage.getDirectory()).removeEntry("mine.loom.json"));
  await page.keyboard.press("Control+s");
  await page.getByRole("alert").getByText("mine.loom.json is no longer where it was").waitFor();
  await page.getByText("mine.loom.json, changes not saved to its file; kept in this browser").waitFor();
  expect(trouble).toEqual([]);
  await page.close();
});
