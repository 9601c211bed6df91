import type { Report } from "@loomproof/analyzer";
import type { Problem } from "@loomproof/netlist";
import type { Opened } from "../files.ts";
import { TOOL } from "../tool.ts";

/** The report of `prove --json`: the analyzer's, with the file it is about, or the problems of a file that is no loom. */
export interface JsonReport extends Report {
  readonly tool: string;
  readonly file: string;
  readonly loomHash: string;
  readonly problems: readonly Problem[];
}

export function jsonReport(opened: Opened, report: Report | undefined): JsonReport {
  const nothing: Report = {
    format: "loomproof-report/1",
    title: "",
    coverage: { complete: false, left: ["the file could not be read"], counts: { runs: 0, states: 0, solves: 0 } },
    findings: [],
    couldNotCheck: [],
    intents: [],
  };
  const { format, ...rest } = report ?? nothing;
  return {
    format,
    tool: TOOL,
    file: opened.file,
    loomHash: opened.ok ? opened.hash : "",
    problems: opened.ok ? [] : opened.problems,
    ...rest,
  };
}
