import type { Sleeve } from "../scene/items.ts";
import { INSULATION, mixed, type Theme } from "./theme.ts";

export const inkColour = (theme: Theme, colour: string, dim: boolean): string =>
  dim ? mixed(colour, theme.sheet, theme.dim) : colour;

/** Insulation by its letters; one that is not known is grey. */
export const insulation = (letters: string): string => INSULATION[letters] ?? INSULATION.GY ?? "";

export function sleeveColours(theme: Theme, state: Sleeve): { readonly fill: string; readonly edge: string } {
  switch (state) {
    case "feed":
      return { fill: theme.feed, edge: theme.feedEdge };
    case "between":
      return { fill: theme.between, edge: theme.betweenEdge };
    case "ground":
      return { fill: theme.sheet, edge: theme.groundEdge };
    case "float":
      return { fill: theme.sheet, edge: theme.floatEdge };
    default:
      return state satisfies never;
  }
}
