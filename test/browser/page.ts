import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { findBrowser, launchOptions } from "../../scripts/find-browser.mjs";

/** The built page as one file, opened without a server. */
const built = new URL("../../packages/editor/dist/index.html", import.meta.url).href;

export const launch = (): Promise<Browser> => chromium.launch(launchOptions(findBrowser({ install: false })));

/** A browser with a profile in this folder: what it keeps outlives it. */
export const launchWith = (profile: string): Promise<BrowserContext> =>
  chromium.launchPersistentContext(profile, launchOptions(findBrowser({ install: false })));

export interface Opened {
  readonly page: Page;
  /** Errors of the page, and anything it asked of a network. */
  readonly trouble: string[];
}

export interface Size {
  readonly width: number;
  readonly height: number;
  /** Pixels of the screen for one px of the page. */
  readonly density?: number;
}

export const DESK: Size = { width: 1440, height: 900 };
export const PHONE: Size = { width: 390, height: 844 };

/** Opens the page, on a loom of its own list if one is named. */
export async function openPage(
  browser: Browser,
  { width, height, density = 1 }: Size,
  colorScheme: "light" | "dark" = "light",
  loom?: string,
): Promise<Opened> {
  const page = await browser.newPage({ viewport: { width, height }, colorScheme, deviceScaleFactor: density });
  return show(page, loom === undefined ? "" : `#loom=${loom}`);
}

/** Shows the built page in a tab. */
export async function show(page: Page, hash = "", address = built): Promise<Opened> {
  const trouble: string[] = [];
  page.on("pageerror", (error) => trouble.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") trouble.push(message.text());
  });
  page.on("request", (request) => {
    if (/^https?:/.test(request.url()) && !request.url().startsWith(address))
      trouble.push(`asked for ${request.url()}`);
  });
  // A driven browser cannot show the dialogs that give a file to write to: the page does as where there are none.
  await page.addInitScript(() => {
    for (const picker of ["showOpenFilePicker", "showSaveFilePicker"]) Reflect.deleteProperty(window, picker);
  });
  await page.goto(`${address}${hash}`);
  return { page, trouble };
}

/**
 * Milliseconds of the processor that the thread of the page took for some work. Unlike those of the clock they do not
 * grow when others want the processor too.
 */
export async function processorMs(page: Page, work: () => Promise<void>): Promise<number> {
  const devtools = await page.context().newCDPSession(page);
  await devtools.send("Performance.enable");
  const taken = async () => {
    const { metrics } = await devtools.send("Performance.getMetrics");
    const thread = metrics.find(({ name }) => name === "ThreadTime");
    if (!thread) throw new Error("the browser does not tell the time of a thread");
    return thread.value * 1000;
  };
  const before = await taken();
  await work();
  const after = await taken();
  await devtools.detach();
  return after - before;
}

/** Waits until everything was looked at. */
export const proved = (page: Page): Promise<void> => page.getByText("was looked at").waitFor({ timeout: 40_000 });

/** Waits until the drawing stands on its sheet. */
export const drawn = (page: Page): Promise<void> =>
  page.locator(".drawing canvas").first().waitFor({ timeout: 40_000 });

/** The file field of the page, whichever button stands over it. */
export const fileField = (page: Page) => page.locator("input[type=file]").first();

export const asFile = (name: string, text: string) => ({
  name,
  mimeType: "application/json",
  buffer: Buffer.from(text),
});

export interface Seen {
  /** Pixels of this colour that a person sees of the sheet. */
  readonly count: number;
  /** Round them, in px of the page. */
  readonly box: { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number };
}

/** What is seen of one colour on the sheet: the drawing is pixels, so it is proved by pixels. */
export async function seen(page: Page, colour: string): Promise<Seen> {
  return page.evaluate((hex) => {
    const near = 4;
    const wanted = [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16));
    const canvas = document.querySelector<HTMLCanvasElement>(".drawing canvas");
    const sheet = document.querySelector(".sheet")?.getBoundingClientRect();
    const context = canvas?.getContext("2d");
    if (!canvas || !sheet || !context) throw new Error("no drawing");
    const whole = canvas.getBoundingClientRect();
    const ratio = canvas.width / whole.width;
    const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
    const box = { x0: Number.POSITIVE_INFINITY, y0: Number.POSITIVE_INFINITY, x1: 0, y1: 0 };
    let count = 0;
    for (let i = 0; i < data.length; i += 4) {
      if (wanted.some((v, k) => Math.abs(v - (data[i + k] ?? 0)) > near)) continue;
      const x = whole.left + ((i / 4) % canvas.width) / ratio;
      const y = whole.top + Math.floor(i / 4 / canvas.width) / ratio;
      if (x < sheet.left || x > sheet.right || y < sheet.top || y > sheet.bottom) continue;
      count++;
      box.x0 = Math.min(box.x0, x);
      box.y0 = Math.min(box.y0, y);
      box.x1 = Math.max(box.x1, x);
      box.y1 = Math.max(box.y1, y);
    }
    return { count, box };
  }, colour);
}
