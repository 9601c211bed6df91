import { familyIds } from "@loomproof/netlist";
import type { Terminal } from "../terminal.ts";
import { familiesText, familyText } from "../text/parts.ts";

/** What a part can be; with a family, its kinds, terminals and values. Exit code 2 if there is no such family. */
export function parts(asked: string | undefined, terminal: Terminal): number {
  const family = familyIds.find((id) => id === asked);
  if (asked !== undefined && family === undefined) {
    terminal.error(`There is no family "${asked}". There are: ${familyIds.join(", ")}.`);
    return 2;
  }
  terminal.print(family === undefined ? familiesText() : familyText(family));
  return 0;
}
