import { type Choice, play as playMoves, type Timeline, timelineCsv } from "@loomproof/analyzer";
import { FOOT } from "../cautions.ts";
import { type Opened, open } from "../files.ts";
import type { Terminal } from "../terminal.ts";
import { painter } from "../text/paint.ts";
import { timelineText } from "../text/play.ts";
import { problemsText } from "../text/prove.ts";
import { TOOL } from "../tool.ts";

export interface PlayCall {
  readonly moves: string;
  readonly times: Choice;
  readonly json: boolean;
  readonly csv: boolean;
}

/** What a script of moves does, in milliseconds. Exit code 2 if the file or the moves cannot be read. */
export async function play(file: string, call: PlayCall, terminal: Terminal): Promise<number> {
  const opened = await open(file);
  if (!opened.ok) {
    terminal.error(problemsText(file, opened.problems));
    return 2;
  }
  const played = playMoves(opened.loom, call.moves, { times: call.times });
  if (!played.ok) {
    const { found, expected } = played.problem;
    terminal.error(`--moves: found ${found}; expected ${expected}`);
    return 2;
  }
  const { timeline } = played;
  if (call.json) terminal.print(JSON.stringify(jsonTimeline(opened, call.moves, timeline), null, 1));
  else if (call.csv) terminal.print(timelineCsv(timeline));
  else {
    const paint = painter(terminal.colour);
    terminal.print(`${timelineText(file, timeline, paint)}\n\n${paint.dim(FOOT)}`);
  }
  return 0;
}

function jsonTimeline({ file, hash }: Extract<Opened, { ok: true }>, moves: string, timeline: Timeline) {
  const { format, ...rest } = timeline;
  return { format, tool: TOOL, file, loomHash: hash, moves, ...rest };
}
