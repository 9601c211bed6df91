import type { Severity } from "@loomproof/analyzer";
import { createColors } from "picocolors";

/** Colours of the terminal; plain when piped. Never the only carrier of meaning: the word stands beside it. */
export interface Painter {
  readonly bold: (text: string) => string;
  readonly dim: (text: string) => string;
  readonly good: (text: string) => string;
  readonly bad: (text: string) => string;
  readonly severity: (severity: Severity) => string;
}

export function painter(on: boolean): Painter {
  const c = createColors(on);
  const by: { readonly [S in Severity]: (text: string) => string } = {
    danger: c.red,
    fault: c.red,
    caution: c.yellow,
    note: c.dim,
  };
  return { bold: c.bold, dim: c.dim, good: c.green, bad: c.red, severity: (s) => by[s](s) };
}
