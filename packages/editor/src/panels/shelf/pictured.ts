import { type Picture, pictureOf } from "@loomproof/drawing";
import { onlyPart, resolve, type ShelfItem } from "@loomproof/netlist";
import type { PageTheme } from "../../sheet/drawing.tsx";

/** A part as it stands on the shelf. */
export function pictured(item: ShelfItem, theme: PageTheme): Picture | undefined {
  const [part] = resolve(onlyPart(item)).parts;
  return part && pictureOf(part, theme);
}
