// Roles to colours. The same values stand in the page's tokens; a test of the editor holds the two together.

export type ThemeName = "light" | "dark" | "paper";

export interface Theme {
  readonly sheet: string;
  readonly sheetDot: string;
  readonly raise: string;
  readonly line: string;
  readonly ink: string;
  readonly ink2: string;
  readonly danger: string;
  /** What is not in the vehicle and never printed. */
  readonly pencil: string;
  readonly feed: string;
  readonly feedEdge: string;
  readonly between: string;
  readonly betweenEdge: string;
  readonly groundEdge: string;
  readonly floatEdge: string;
  readonly lit: string;
  readonly glow: string;
  readonly wireEdge: string;
  /** How much of a dimmed colour is kept. */
  readonly dim: number;
}

const light: Theme = {
  sheet: "#fbfcf9",
  sheetDot: "#d3dad3",
  raise: "#ffffff",
  line: "#7b8881",
  ink: "#1c2827",
  ink2: "#44524f",
  danger: "#ab1430",
  pencil: "#1a69a4",
  feed: "#f2b632",
  feedEdge: "#8f5f00",
  between: "#dccdf0",
  betweenEdge: "#6a3fa0",
  groundEdge: "#15705f",
  floatEdge: "#6d7a75",
  lit: "#ffd873",
  glow: "#ffe9ad",
  wireEdge: "#33413e",
  dim: 0.38,
};

export const THEMES: { readonly [T in ThemeName]: Theme } = {
  light,
  dark: {
    sheet: "#1a2221",
    sheetDot: "#303a38",
    raise: "#222c2a",
    line: "#75837e",
    ink: "#e6ece6",
    ink2: "#b9c4bf",
    danger: "#ff8794",
    pencil: "#79bdf0",
    feed: "#b67a00",
    feedEdge: "#ffcf66",
    between: "#4b3671",
    betweenEdge: "#c3a3ef",
    groundEdge: "#5fc7b0",
    floatEdge: "#93a19b",
    lit: "#d99a1c",
    glow: "#4a3b17",
    wireEdge: "#c6d0ca",
    dim: 0.48,
  },
  paper: { ...light, sheet: "#ffffff", sheetDot: "#ffffff", raise: "#ffffff" },
};

/** Insulation colours by IEC 60757 letters. */
export const INSULATION: Readonly<Record<string, string>> = {
  BK: "#1b1b1b",
  BN: "#7a4a26",
  RD: "#c8222c",
  OG: "#ec7b1a",
  YE: "#f4d21f",
  GN: "#2f8f3a",
  BU: "#2159b8",
  VT: "#7b3f9b",
  GY: "#8d9291",
  WH: "#ffffff",
  PK: "#f29ab2",
  TQ: "#2bb6b3",
  GD: "#c9a227",
  SR: "#c8ccd0",
};

/** A colour mixed towards the sheet: dimming without transparency. */
export function mixed(colour: string, sheet: string, keep: number): string {
  const channel = (hex: string, i: number) => Number.parseInt(hex.slice(1 + 2 * i, 3 + 2 * i), 16);
  const mix = (i: number) => Math.round(channel(colour, i) * keep + channel(sheet, i) * (1 - keep));
  return `#${[0, 1, 2].map((i) => mix(i).toString(16).padStart(2, "0")).join("")}`;
}
