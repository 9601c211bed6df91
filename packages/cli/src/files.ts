import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { LIMITS, type Loom, type Problem, parse, write } from "@loomproof/netlist";
import { glob, isDynamicPattern } from "tinyglobby";

/** A file as it was found: a loom, or what is wrong with it. */
export type Opened =
  | { readonly ok: true; readonly file: string; readonly loom: Loom; readonly hash: string }
  | { readonly ok: false; readonly file: string; readonly problems: readonly Problem[] };

/** Names and patterns in the order given; `-` is standard input. A pattern that meets nothing stays as it is. */
export async function filesOf(names: readonly string[]): Promise<readonly string[]> {
  const lists = await Promise.all(
    names.map(async (name) => {
      if (name === "-" || !isDynamicPattern(name)) return [name];
      const found = await glob([name], { expandDirectories: false });
      return found.length === 0 ? [name] : found.sort();
    }),
  );
  return lists.flat();
}

export async function open(file: string): Promise<Opened> {
  let text: string;
  try {
    text = file === "-" ? await standardInput() : await readText(file);
  } catch (error) {
    return { ok: false, file, problems: [unreadable(error)] };
  }
  const read = parse(text);
  if (!read.ok) return { ok: false, file, problems: read.problems };
  return { ok: true, file, loom: read.loom, hash: electricalHash(read.loom) };
}

async function readText(file: string): Promise<string> {
  const bytes = await readFile(file);
  return new TextDecoder("utf-8", { fatal: false }).decode(bytes);
}

async function standardInput(): Promise<string> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of process.stdin) {
    const bytes = chunk as Buffer;
    size += bytes.length;
    chunks.push(bytes);
    // The reader refuses what is larger; there is no use in waiting for the rest.
    if (size > LIMITS.bytes) break;
  }
  return Buffer.concat(chunks).toString("utf8");
}

function unreadable(error: unknown): Problem {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  const found =
    code === "ENOENT"
      ? "no such file"
      : code === "EISDIR"
        ? "a folder"
        : code === "EACCES"
          ? "a file that may not be read"
          : "a file that cannot be read";
  return {
    path: "",
    line: 1,
    column: 1,
    found,
    expected: "a loom file, NAME.loom.json",
    says: `There is ${found} of that name; give the path of a loom file.`,
  };
}

/** What the analysis hangs on: definitions, parts, wires, world and system. Moving a symbol does not change it. */
function electricalHash(loom: Loom): string {
  const { format, system, definitions, parts, wires, world } = loom;
  const bare: Loom = {
    format,
    system,
    definitions,
    parts,
    wires,
    world,
    intents: [],
    meant: loom.meant,
    accepted: [],
    remarks: [],
  };
  return createHash("sha256").update(write(bare)).digest("hex").slice(0, 16);
}
