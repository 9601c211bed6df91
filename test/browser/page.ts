import { type Browser, chromium, type Page } from "playwright-core";
import { findBrowser, launchOptions } from "../../scripts/find-browser.mjs";

/** The built page as one file, opened without a server. */
const built = new URL("../../packages/editor/dist/index.html", import.meta.url).href;

export const launch = (): Promise<Browser> => chromium.launch(launchOptions(findBrowser({ install: false })));

export interface Opened {
  readonly page: Page;
  /** Errors of the page, and anything it asked of a network. */
  readonly trouble: string[];
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Opens the page, on a loom of its own list if one is named. */
export async function openPage(
  browser: Browser,
  { width, height }: Size,
  colorScheme: "light" | "dark" = "light",
  loom?: string,
): Promise<Opened> {
  const page = await browser.newPage({ viewport: { width, height }, colorScheme });
  const trouble: string[] = [];
  page.on("pageerror", (error) => trouble.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error") trouble.push(message.text());
  });
  page.on("request", (request) => {
    if (/^https?:/.test(request.url())) trouble.push(`asked for ${request.url()}`);
  });
  await page.goto(loom === undefined ? built : `${built}#loom=${loom}`);
  return { page, trouble };
}
