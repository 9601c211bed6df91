import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Loom, write } from "@loomproof/netlist";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { drag, OnSheet, saved } from "./on-sheet.ts";
import { DESK, launch, type Opened, proved, show } from "./page.ts";

// The fuel feed that holds itself in (invented), drawn from an empty sheet: by mouse alone, and by keyboard alone. What
// the page finds in it, the terminal finds in the saved file.

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
  const context = await browser.newContext({ viewport: DESK });
  opened = await show(await context.newPage(), "");
  page = opened.page;
});
afterEach(async () => {
  expect(opened.trouble).toEqual([]);
  await page.context().close();
});

const loomproof = fileURLToPath(new URL("../../bin/loomproof.mjs", import.meta.url));

interface Told {
  readonly id: string;
  readonly consequences: readonly string[];
}

/** What the terminal finds in a saved loom and tells by itself, not as the consequence of something else. */
function foundByTerminal(loom: Loom): readonly string[] {
  const folder = mkdtempSync(join(tmpdir(), "loomproof-"));
  try {
    const file = join(folder, "drawn.loom.json");
    writeFileSync(file, write(loom));
    const { stdout } = spawnSync(process.execPath, [loomproof, "prove", "--json", file], { encoding: "utf8" });
    const { findings } = JSON.parse(stdout) as { readonly findings: readonly Told[] };
    const under = new Set(findings.flatMap((f) => f.consequences));
    return findings.flatMap((f) => (under.has(f.id) ? [] : [f.id])).sort();
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Identities of all findings that the page tells. */
const foundOnPage = (): Promise<readonly string[]> =>
  page.locator(".finding").evaluateAll((all) => all.map((f) => (f as HTMLElement).dataset.finding ?? "").sort());

/** Waits until what was drawn last was looked at. */
async function provedAgain(): Promise<void> {
  await page.waitForTimeout(400);
  await page.locator('.margin[aria-busy="false"]').waitFor({ timeout: 60_000 });
  await proved(page);
}

/** Parts with where they go on the sheet, px from its corner. */
const PARTS = [
  ["Battery", 120, 300],
  ["Main fuse", 230, 150],
  ["Key", 380, 170],
  ["Fuse", 330, 330],
  ["Relay", 430, 330],
  ["Relay", 680, 170],
  ["Relay", 560, 170],
  ["Pump", 800, 330],
  ["Controller", 600, 460],
  ["Ground on the engine", 850, 480],
] as const;

/** Wires in the order in which they are drawn: from a terminal to a terminal, a part, or into a wire. */
const WIRES = [
  ["G1.+", "F1.a"],
  ["F1.b", "S1.30"],
  ["S1.15", "F2.a"],
  ["F2.b", "K1.86"],
  ["K1.85", "A1.9"],
  ["K1.87", "A1.1"],
  ["K3.87", "K2.30"],
  ["K3.87", "K2.86"],
  ["K2.85", "A1.10"],
  ["K2.87", "M1.+"],
  ["K1.30", "wire W2"],
  ["K3.30", "wire W2"],
  ["A1.3", "wire W4"],
  ["K3.86", "wire W6"],
  ["M1.-", "part XE1"],
  ["K3.85", "part XE1"],
  ["A1.2", "part XE1"],
  ["G1.-", "part XE1"],
] as const;

/** What these make of the loom: each wire that was met has a splice in it. */
const DRAWN = [
  "G1.+ F1.a",
  "F1.b XS2",
  "S1.15 F2.a",
  "F2.b XS3",
  "K1.85 A1.9",
  "K1.87 XS4",
  "K3.87 K2.30",
  "K3.87 K2.86",
  "K2.85 A1.10",
  "K2.87 M1.+",
  "XS1 S1.30",
  "XS1 K1.30",
  "XS2 XS1",
  "XS2 K3.30",
  "XS3 K1.86",
  "XS3 A1.3",
  "XS4 A1.1",
  "XS4 K3.86",
  "M1.- XE1",
  "K3.85 XE1",
  "A1.2 XE1",
  "G1.- XE1",
];

test("by mouse alone", { timeout: 180_000 }, async () => {
  await page.getByRole("button", { name: /A blank loom/ }).click();
  const sheet = await page.locator(".sheet").boundingBox();
  if (sheet === null) throw new Error("no sheet");
  for (const [name, x, y] of PARTS) {
    const item = page.getByRole("button", { name, exact: true });
    await item.scrollIntoViewIfNeeded();
    const box = await item.boundingBox();
    if (box === null) throw new Error(`no ${name} on the shelf`);
    await drag(page, { x: box.x + box.width / 2, y: box.y + 20 }, { x: sheet.x + x, y: sheet.y + y });
  }
  const save = () => saved(page, () => page.getByRole("button", { name: "Save", exact: true }).click());
  let loom = await save();
  expect(loom.parts.map((p) => p.id).sort()).toEqual(["A1", "F1", "F2", "G1", "K1", "K2", "K3", "M1", "S1", "XE1"]);
  let at = await OnSheet.of(page, loom);
  for (const [from, to] of WIRES) {
    const [kind, id = ""] = to.split(" ");
    const goal = kind === "wire" ? at.wire(id) : kind === "part" ? at.part(id) : at.terminal(to);
    await drag(page, at.terminal(from), goal);
    loom = await save();
    at = await OnSheet.of(page, loom);
  }
  expect(loom.wires.map((w) => `${w.from} ${w.to}`)).toEqual(DRAWN);
  await provedAgain();
  await page.screenshot({ path: "build/screenshots/drawn-by-mouse.png" });
  const found = foundByTerminal(loom);
  expect(found).toContain("self-hold:K3");
  expect(await foundOnPage()).toEqual(found);
});

/** Walks with Tab until the keyboard is there. */
async function tabTo(target: Locator): Promise<void> {
  await target.waitFor();
  for (let i = 0; i < 400; i++) {
    if (await target.evaluate((e) => e === document.activeElement)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error("no way there with Tab");
}

/** Shows a tab of the tray. */
async function turnTo(name: string): Promise<void> {
  const wanted = page.getByRole("tab", { name, exact: true });
  const shown = page.locator('[role="tab"][aria-selected="true"]');
  for (let i = 0; i < 3 && !(await shown.evaluate((e) => e === document.activeElement)); i++)
    await page.keyboard.press("F6");
  for (let i = 0; i < 9 && (await wanted.getAttribute("aria-selected")) !== "true"; i++)
    await page.keyboard.press("ArrowRight");
}

/** Shows the values of a part, from the outline. */
async function toPart(id: string): Promise<void> {
  await turnTo("Outline");
  await tabTo(page.getByRole("searchbox", { name: "Find in the outline" }));
  await page.keyboard.press("Control+a");
  await page.keyboard.type(`${id} `);
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("Enter");
  await page.getByLabel("Designation").waitFor();
}

/** The same loom without mouse: joints are taken from the shelf, terminals are named. */
const BY_KEYS = [
  ["G1.+", "F1.a"],
  ["F1.b", "XS1"],
  ["XS1.1", "S1.30"],
  ["S1.15", "F2.a"],
  ["F2.b", "K1.86"],
  ["F2.b", "A1.3"],
  ["K1.85", "A1.9"],
  ["XS1.1", "K1.30"],
  ["K1.87", "A1.1"],
  ["K1.87", "K3.86"],
  ["XS1.1", "K3.30"],
  ["K3.85", "XE1"],
  ["K3.87", "K2.30"],
  ["K3.87", "K2.86"],
  ["K2.85", "A1.10"],
  ["K2.87", "M1.+"],
  ["M1.-", "XE1"],
  ["A1.2", "XE1"],
  ["G1.-", "XE1"],
] as const;

test("by keyboard alone", { timeout: 240_000 }, async () => {
  await tabTo(page.getByRole("button", { name: /A blank loom/ }));
  await page.keyboard.press("Enter");
  const field = page.getByRole("searchbox", { name: "Find a part on the shelf" });
  for (const word of [
    "battery",
    "main fuse",
    "key",
    "blade fuse",
    "relay",
    "relay",
    "relay",
    "pump",
    "controller",
    "splice",
    "ground engine",
  ]) {
    await tabTo(field);
    await page.keyboard.press("Control+a");
    await page.keyboard.type(word);
    await page.keyboard.press("Enter");
  }
  for (const [from, to] of BY_KEYS) {
    await toPart(from.split(".")[0] ?? "");
    await tabTo(page.getByRole("combobox", { name: `Wire ${from.replace(/^(XS1)\.1$/, "$1")} to` }));
    await page.keyboard.type(to);
    await page.keyboard.press("Enter");
  }
  const loom = await saved(page, () => page.keyboard.press("Control+s"));
  expect(loom.wires.map((w) => `${w.from} ${w.to}`)).toEqual(
    BY_KEYS.map(([a, b]) => `${a.replace("XS1.1", "XS1")} ${b}`),
  );
  await provedAgain();
  await page.screenshot({ path: "build/screenshots/drawn-by-keys.png" });
  const found = foundByTerminal(loom);
  expect(found).toContain("self-hold:K3");
  expect(await foundOnPage()).toEqual(found);
});
