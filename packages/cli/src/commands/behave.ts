import { behaviour, compareBehaviour } from "@loomproof/analyzer";
import { FOOT } from "../cautions.ts";
import { type Opened, open } from "../files.ts";
import { jsonBehaviour, jsonBehaviourChange } from "../json/behaviour.ts";
import type { Terminal } from "../terminal.ts";
import { behaviourText, changeText } from "../text/behave.ts";
import { painter } from "../text/paint.ts";
import { problemsText } from "../text/prove.ts";

interface BehaveOptions {
  readonly json: boolean;
  readonly all: boolean;
}

type Readable = Extract<Opened, { readonly ok: true }>;

/** What is on when; of two looms what differs in that. Exit code 2 if a file cannot be read. */
export async function behave(
  file: string,
  other: string | undefined,
  options: BehaveOptions,
  terminal: Terminal,
): Promise<number> {
  const opened = await Promise.all([file, ...(other === undefined ? [] : [other])].map((f) => open(f)));
  for (const o of opened) if (!o.ok) terminal.error(problemsText(o.file, o.problems));
  const [first, second] = opened.filter((o) => o.ok);
  if (first === undefined || opened.some((o) => !o.ok)) return 2;
  if (second === undefined) show(first, options, terminal);
  else showChange(first, second, options, terminal);
  return 0;
}

function show(opened: Readable, { json, all }: BehaveOptions, terminal: Terminal): void {
  const paint = painter(terminal.colour);
  terminal.progress(opened.file);
  const table = behaviour(opened.loom, all ? Number.POSITIVE_INFINITY : undefined);
  terminal.progress(undefined);
  if (json) terminal.print(JSON.stringify(jsonBehaviour(opened, table), null, 1));
  else terminal.print(`${behaviourText(opened.file, table, paint)}\n\n${paint.dim(FOOT)}`);
}

function showChange(old: Readable, now: Readable, { json }: BehaveOptions, terminal: Terminal): void {
  const paint = painter(terminal.colour);
  terminal.progress(`${old.file} and ${now.file}`);
  const change = compareBehaviour(old.loom, now.loom);
  terminal.progress(undefined);
  if (json) terminal.print(JSON.stringify(jsonBehaviourChange(old, now, change), null, 1));
  else terminal.print(`${old.file} -> ${now.file}\n\n${changeText(change, paint)}\n\n${paint.dim(FOOT)}`);
}
