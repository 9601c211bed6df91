import { behaviour } from "@loomproof/analyzer";
import { FOOT } from "../cautions.ts";
import { open } from "../files.ts";
import type { Terminal } from "../terminal.ts";
import { behaviourText } from "../text/behave.ts";
import { problemsText } from "../text/prove.ts";

/** What is on when. Exit code 2 if the file cannot be read. */
export async function behave(
  file: string,
  options: { readonly json: boolean; readonly all: boolean },
  terminal: Terminal,
): Promise<number> {
  const opened = await open(file);
  if (!opened.ok) {
    terminal.error(problemsText(file, opened.problems));
    return 2;
  }
  const table = behaviour(opened.loom, options.all ? Number.POSITIVE_INFINITY : undefined);
  terminal.print(options.json ? JSON.stringify(table, null, 1) : `${behaviourText(table)}\n\n${FOOT}`);
  return 0;
}
