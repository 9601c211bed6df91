import { readFileSync } from "node:fs";
import { THEMES } from "@loomproof/drawing";
import { describe, expect, test } from "vitest";

const css = readFileSync(new URL("./tokens.css", import.meta.url), "utf8");
const block = (theme: string): string => /{([^}]*)}/.exec(css.slice(css.indexOf(`[data-theme="${theme}"]`)))?.[1] ?? "";
const token = (theme: string, name: string): string | undefined =>
  new RegExp(`--${name}:\\s*([^;]+);`).exec(block(theme))?.[1];

/** Names of the drawing's colours in the page's tokens. */
const SAME = {
  sheet: "sheet",
  sheetDot: "sheet-dot",
  raise: "raise",
  line: "line-firm",
  ink: "ink",
  ink2: "ink-2",
  danger: "danger",
  pencil: "pencil",
  feed: "feed",
  feedEdge: "feed-edge",
  between: "between",
  betweenEdge: "between-edge",
  groundEdge: "ground-edge",
  floatEdge: "float-edge",
  lit: "lit",
  glow: "glow",
  wireEdge: "wire-edge",
} as const;

describe.each(["light", "dark"] as const)("%s", (theme) => {
  test.each(Object.entries(SAME))("the drawing's %s is the page's --%s", (colour, name) => {
    expect(THEMES[theme][colour as keyof typeof SAME]).toBe(token(theme, name));
  });

  test("both dim by the same share", () => {
    expect(THEMES[theme].dim).toBe(Number(token(theme, "dim")));
  });
});
