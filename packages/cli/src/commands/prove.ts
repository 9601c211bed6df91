import { analyse, type Finding, SEVERITIES } from "@loomproof/analyzer";
import { FOOT } from "../cautions.ts";
import { filesOf, open } from "../files.ts";
import { jsonReport } from "../json/report.ts";
import type { Terminal } from "../terminal.ts";
import { painter } from "../text/paint.ts";
import { problemsText, reportText } from "../text/prove.ts";

export interface ProveOptions {
  readonly json: boolean;
  readonly failAt: (typeof SEVERITIES)[number] | "never";
  readonly strict: boolean;
}

/** Findings of each file. Exit code: 2 if a file cannot be read, else 1 from `failAt` on, else 0; the highest counts. */
export async function prove(names: readonly string[], options: ProveOptions, terminal: Terminal): Promise<number> {
  const paint = painter(terminal.colour);
  const reports: unknown[] = [];
  let exit = 0;
  const files = await filesOf(names);
  for (const [i, file] of files.entries()) {
    terminal.progress(files.length > 1 ? `${file} (${i + 1} of ${files.length})` : file);
    const opened = await open(file);
    exit = Math.max(exit, opened.ok ? 0 : 2);
    if (!opened.ok) {
      if (options.json) reports.push(jsonReport(opened, undefined));
      terminal.error(problemsText(file, opened.problems));
      continue;
    }
    const report = analyse(opened.loom);
    terminal.progress(undefined);
    exit = Math.max(exit, exitOf(report.findings, report.coverage.complete, options));
    if (options.json) reports.push(jsonReport(opened, report));
    else terminal.print(`${reportText(file, report, paint)}\n`);
  }
  terminal.progress(undefined);
  if (options.json) terminal.print(JSON.stringify(reports.length === 1 ? reports[0] : reports, null, 1));
  else terminal.print(paint.dim(FOOT));
  return exit;
}

/** Accepted and possible findings do not count, nor what folds under another. */
function exitOf(findings: readonly Finding[], complete: boolean, { failAt, strict }: ProveOptions): number {
  if (strict && !complete) return 1;
  if (failAt === "never") return 0;
  const counts = findings.some(
    (f) =>
      f.accepted === undefined &&
      f.strength === "certain" &&
      SEVERITIES.indexOf(f.severity) >= SEVERITIES.indexOf(failAt),
  );
  return counts ? 1 : 0;
}
