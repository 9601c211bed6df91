import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { asFile, DESK, fileField, launch, type Opened, openPage } from "./page.ts";

// Shelf, particulars and outline, by keyboard alone: what stands in the file is read from "as in the file".

const blank = JSON.stringify({ format: "loomproof/1", title: "Mine", system: { volts: 12 }, parts: [], wires: [] });

/** Small, so that the check of it is soon over. */
const small = JSON.stringify({
  format: "loomproof/1",
  title: "Small",
  system: { volts: 12, reference: "G1.-" },
  parts: [
    { id: "F1", is: "protector", label: "Pump", rated: "15 A" },
    { id: "G1", is: "battery" },
    { id: "K1", is: "relay", label: "Fuel feed" },
    { id: "M1", is: "motor", kind: "pump", label: "Lift pump" },
    { id: "S1", is: "switch", label: "Pump" },
  ],
  wires: [
    ["G1.+", "F1.a"],
    ["F1.b", "S1.1"],
    ["S1.2", "K1.86"],
    ["K1.85", "G1.-"],
    ["F1.b", "K1.30"],
    ["K1.87", "M1.+"],
    ["M1.-", "G1.-"],
  ].map(([from, to], i) => ({ id: `W${i + 1}`, from, to, size: "1 mm2", length: "1 m" })),
  intents: [{ id: "pump", load: "M1", onOnlyWhen: [{ S1: "closed" }] }],
});

async function openLoom(text: string, theme: "light" | "dark" = "light"): Promise<Opened> {
  const opened = await openPage(browser, DESK, theme);
  await fileField(opened.page).setInputFiles(asFile("mine.loom.json", text));
  await opened.page.getByRole("tab", { name: "Shelf" }).waitFor();
  return opened;
}

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
});

/** Shows a tab of the tray; a click on the one that is shown would fold it. */
async function tab(page: Page, name: string): Promise<void> {
  const it = page.getByRole("tab", { name, exact: true });
  if ((await it.getAttribute("aria-selected")) !== "true") await it.click();
}

/** The line of the file for what is picked. */
const inFile = (page: Page) => page.locator(".as-in-file textarea").inputValue();

/** Picks a part or a wire from the outline. */
async function pick(page: Page, name: string): Promise<void> {
  await tab(page, "Outline");
  await page.getByRole("searchbox", { name: "Find in the outline" }).fill("");
  await page.getByRole("button", { name: new RegExp(`^${name} `) }).press("Enter");
}

async function place(page: Page, word: string): Promise<void> {
  await tab(page, "Shelf");
  const field = page.getByRole("searchbox", { name: "Find a part on the shelf" });
  await field.fill(word);
  await field.press("Enter");
}

async function wire(page: Page, from: string, typed: string): Promise<void> {
  const field = page.getByRole("combobox", { name: `Wire ${from} to` });
  await field.fill(typed);
  await field.press("Enter");
}

async function type(page: Page, name: string, text: string): Promise<void> {
  const field = page.getByLabel(name, { exact: true });
  await field.fill(text);
  await field.press("Enter");
}

test("from a blank loom: parts from the shelf, values, wires, all by keyboard", async () => {
  const { page, trouble } = await openLoom(blank);
  for (const word of ["battery", "blade fuse", "thing that clicks", "ECU", "ground body"]) await place(page, word);

  await pick(page, "F1");
  await type(page, "Rated", "15a");
  await type(page, "Label", "Fuel");
  await wire(page, "F1.a", "G1.+");
  await wire(page, "F1.b", "relay contact");
  await expect(inFile(page)).resolves.toBe(
    '{"id": "F1", "is": "protector", "kind": "blade", "label": "Fuel", "rated": "15 A"}',
  );

  await pick(page, "K1");
  await type(page, "Coil", "85 ohms");
  await type(page, "Release, least", "1,2V");
  await page.getByRole("combobox", { name: "Suppression" }).selectOption("diode");
  await wire(page, "K1.85", "A1.10");
  await expect(inFile(page)).resolves.toBe(
    '{"id": "K1", "is": "relay", "kind": "make", "coil": "85 ohm", "release": ["1.2 V", null], "suppression": {"diode": "85>86"}}',
  );

  await pick(page, "W1");
  await type(page, "Size", "14 awg");
  await type(page, "Length", "0,4 m");
  await page.getByRole("combobox", { name: "Base colour" }).selectOption("RD");
  await page.getByRole("combobox", { name: "Tracer colour" }).selectOption("YE");
  await expect(inFile(page)).resolves.toBe(
    '{"id": "W1", "from": "F1.a", "to": "G1.+", "size": "14 AWG", "length": "0.4 m", "colour": "RD/YE"}',
  );

  await pick(page, "A1");
  await type(page, "Name of pin 10", "lift pump relay");
  await type(page, "Clamp of pin 10", "zener 42");
  await page.getByRole("button", { name: "More of pin 3" }).click();
  await type(page, "High", "3,5v");
  await expect(inFile(page)).resolves.toContain('"high": "3.5 V", "wakes": true}');
  await expect(inFile(page)).resolves.toContain(
    '{"pin": "10", "name": "lift pump relay", "kind": "low-side", "rated": "1 A", "clamp": {"kind": "zener", "volts": "42 V"}}',
  );
  expect(trouble).toEqual([]);
  await page.close();
});

test("a bare number is asked for its unit, a wrong one is told, Esc puts it back", async () => {
  const { page, trouble } = await openLoom(small);
  await pick(page, "F1");
  const rated = page.getByRole("textbox", { name: "Rated" });
  await type(page, "Rated", "20");
  await page.getByText("In which unit?").waitFor();
  await rated.press("Enter");
  await expect(rated.inputValue()).resolves.toBe("20 A");
  await type(page, "Rated", "20 V");
  const alert = page.getByRole("alert");
  await expect(alert.textContent()).resolves.toBe(
    '"rated" of F1 is "20 V"; it must be a value with its unit, such as "15 A" or "30 mA".',
  );
  await expect(rated.getAttribute("aria-invalid")).resolves.toBe("true");
  await rated.press("Escape");
  await expect(rated.inputValue()).resolves.toBe("20 A");
  await expect(alert.count()).resolves.toBe(0);
  expect(trouble).toEqual([]);
  await page.close();
});

test("the outline is walked, a part renamed with F2 and another deleted, and what went with it is told", async () => {
  const { page, trouble } = await openLoom(small);
  await tab(page, "Outline");
  const field = page.getByRole("searchbox", { name: "Find in the outline" });
  await field.fill("fuel feed");
  await field.press("ArrowDown");
  await page.keyboard.press("F2");
  await expect(
    page.getByRole("textbox", { name: "Designation" }).evaluate((e) => e === document.activeElement),
  ).resolves.toBe(true);
  await page.keyboard.press("ControlOrMeta+a");
  await page.keyboard.type("K3");
  await page.keyboard.press("Enter");
  await page.getByText("K3.86").waitFor();
  await expect(page.evaluate(() => document.activeElement?.id)).resolves.toBe("particulars-name");
  await tab(page, "Outline");
  await field.fill("M1 Lift pump");
  await field.press("ArrowDown");
  await page.keyboard.press("Delete");
  await page.getByText("M1 is deleted, and with it W6 to K3.87, W7 to G1.- and the wish pump.").waitFor();
  await field.fill("");
  await expect(page.getByRole("button", { name: /^K3 / }).textContent()).resolves.toContain(
    "30 to F1.b by W5; 87 open",
  );
  expect(trouble).toEqual([]);
  await page.close();
});

test("a part is dragged from the shelf; a click that strays a little drags nothing", async () => {
  const { page, trouble } = await openLoom(small);
  await tab(page, "Shelf");
  const fuse = await page.getByRole("button", { name: "Fuse", exact: true }).boundingBox();
  const sheet = await page.locator(".sheet").boundingBox();
  if (fuse === null || sheet === null) throw new Error("nothing to drag");
  const [x, y] = [fuse.x + 20, fuse.y + 20];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 2, y - 2);
  await page.mouse.up();
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 10, y - 30, { steps: 4 });
  await page.mouse.move(sheet.x + sheet.width / 2, sheet.y + 60, { steps: 8 });
  await page.mouse.up();
  await tab(page, "Outline");
  await expect(page.getByRole("button", { name: /^F2 / }).textContent()).resolves.toContain("a open; b open");
  await expect(page.getByRole("button", { name: /^F3 / }).count()).resolves.toBe(0);
  expect(trouble).toEqual([]);
  await page.close();
});

test("the shelf is walked with arrows; what is nowhere is told", async () => {
  const { page, trouble } = await openLoom(small, "dark");
  await tab(page, "Shelf");
  const field = page.getByRole("searchbox", { name: "Find a part on the shelf" });
  await field.press("ArrowDown");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  const focused = () => page.evaluate(() => document.activeElement?.textContent);
  await expect(focused()).resolves.toBe("Fuse");
  await page.keyboard.press("Enter");
  await tab(page, "Particulars");
  await expect(page.getByRole("textbox", { name: "Designation" }).inputValue()).resolves.toBe("F2");
  await tab(page, "Shelf");
  await field.fill("flux");
  await page.getByText("Nothing on the shelf is called “flux”. Try a plainer word.").waitFor();
  expect(trouble).toEqual([]);
  await page.close();
});
