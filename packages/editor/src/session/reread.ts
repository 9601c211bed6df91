import { type Loom, parse } from "@loomproof/netlist";

/** A loom that the page has read already. */
export function reread(text: string): Loom {
  const read = parse(text);
  if (!read.ok) throw new Error(read.problems[0]?.says ?? "It is no loom.");
  return read.loom;
}

export const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
