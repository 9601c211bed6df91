import { writeFile } from "node:fs/promises";
import { analyse, type Finding } from "@loomproof/analyzer";
import { layout, type Marks, pathMarks, scene, toSvg } from "@loomproof/drawing";
import { type ResolvedLoom, resolve } from "@loomproof/netlist";
import { open } from "../files.ts";
import type { Terminal } from "../terminal.ts";
import { problemsText } from "../text/prove.ts";

export interface DrawOptions {
  readonly finding?: string;
  readonly out?: string;
  readonly theme: "light" | "dark" | "paper";
}

/** The loom as SVG. Exit code 2 if the file cannot be read, has no such finding, or the picture cannot be written. */
export async function draw(file: string, options: DrawOptions, terminal: Terminal): Promise<number> {
  const opened = await open(file);
  if (!opened.ok) {
    terminal.error(problemsText(file, opened.problems));
    return 2;
  }
  const loom = resolve(opened.loom);
  let marks: Marks | undefined;
  if (options.finding !== undefined) {
    const { findings } = analyse(opened.loom);
    const finding = findings.find((f) => f.id === options.finding);
    if (finding === undefined) {
      const known = findings.map((f) => f.id).join(", ") || "none";
      terminal.error(`${file}: no finding ${options.finding}; it has ${known}`);
      return 2;
    }
    marks = marksOf(loom, finding);
  }
  const svg = toSvg(scene(loom, layout(loom, { drawing: opened.loom.drawing }), marks), {
    theme: options.theme,
    title: loom.title,
  });
  if (options.out === undefined) {
    terminal.print(svg);
    return 0;
  }
  try {
    await writeFile(options.out, svg);
  } catch (error) {
    terminal.error(
      `${options.out}: cannot be written (${error instanceof Error && "code" in error ? String(error.code) : "unknown reason"})`,
    );
    return 2;
  }
  return 0;
}

/** What a finding lights: its path, the part that is told, and how everything stands then. */
const marksOf = (loom: ResolvedLoom, f: Finding): Marks =>
  pathMarks(loom, {
    path: f.path,
    volts: f.volts,
    ring: f.hold?.ring[0] ?? f.where[0],
    inputs: f.states[0]?.inputs ?? {},
    partsIn: f.states[0]?.in ?? [],
    partsOn: f.states[0]?.on ?? [],
    also: f.where,
  });
