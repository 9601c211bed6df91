import type { Report, Severity } from "@loomproof/analyzer";

/** How grave it is that an intent is not so; a fault as long as no finding says otherwise. */
export const severityOf = (report: Report | undefined, intent: string): Severity =>
  report?.findings.find((f) => f.id === `intent:${intent}`)?.severity ?? "fault";
